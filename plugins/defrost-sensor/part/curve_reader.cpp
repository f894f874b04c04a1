#include "part/curve_reader.hpp"

#include <algorithm>

#include "curves/beta_curve.hpp"
#include "curves/chart_curve.hpp"
#include "curves/four_coefficient_curve.hpp"
#include "curves/steinhart_hart_curve.hpp"

namespace ohmwright::defrost_sensor {

namespace {

std::optional<ReadCurve> read_beta(const ValueNode& node, Figures& figures) {
  const std::optional<Resistance> reference = figures.resistance(node, "reference_resistance");
  const std::optional<TemperatureDifference> beta = figures.difference(node, "beta");
  if (!reference || !beta) return std::nullopt;
  BetaCurve::Figures all;
  all.reference_resistance = *reference;
  all.beta_kelvin = beta->value();
  if (const auto at = figures.temperature(node, "reference_temperature")) all.reference_temperature = *at;
  if (const auto between = figures.span(node, "beta_between")) all.defined_between = *between;
  all.stated_span = figures.span(node, "span");
  ReadCurve read;
  read.reference_temperature = all.reference_temperature;
  figures.guarded(node, [&] { read.curve = std::make_shared<BetaCurve>(all); });
  return read;
}

/// The rows of "points" or "rows"; those that were refused are missing.
std::vector<CurvePoint> read_rows(const ValueNode& rows, Figures& figures) {
  std::vector<CurvePoint> points;
  for (const ValueNode& row : *rows.array()) {
    const std::optional<Temperature> t = figures.temperature(row, "temperature");
    const std::optional<Resistance> r = figures.resistance(row, "resistance");
    if (t && r) points.push_back({*t, *r});
  }
  return points;
}

/// What the kind's schema asks of a set of coefficients, made once for both sets.
struct Coefficients {
  std::optional<double> a;
  std::optional<double> b;
  std::optional<double> c;
  std::optional<TemperatureSpan> span;

  Coefficients(const ValueNode& node, Figures& figures)
      : a(figures.number(node, "a")),
        b(figures.number(node, "b")),
        c(figures.number(node, "c")),
        span(figures.span(node, "span")) {}
  bool complete() const { return a && b && c && span; }
};

std::optional<ReadCurve> read_steinhart_hart_points(const ValueNode& rows, Figures& figures) {
  const std::vector<CurvePoint> points = read_rows(rows, figures);
  if (points.size() != 3) return std::nullopt;
  ReadCurve read;
  figures.guarded(rows, [&] {
    const auto [coldest, hottest] = std::minmax({points[0].temperature, points[1].temperature, points[2].temperature});
    read.curve = std::make_shared<SteinhartHartCurve>(SteinhartHartCurve::through({points[0], points[1], points[2]}),
                                                      TemperatureSpan{coldest, hottest});
  });
  return read;
}

std::optional<ReadCurve> read_steinhart_hart(const ValueNode& node, Figures& figures) {
  if (const ValueNode* points = node.find("points")) return read_steinhart_hart_points(*points, figures);
  const Coefficients given(node, figures);
  if (!given.complete()) return std::nullopt;
  SteinhartHartCurve::Coefficients coefficients;
  coefficients.a = *given.a;
  coefficients.b = *given.b;
  coefficients.c = *given.c;
  if (figures.word(node, "resistance_unit") == "kohm") coefficients.unit = Resistance::from_value(1000.0);
  ReadCurve read;
  figures.guarded(node, [&] { read.curve = std::make_shared<SteinhartHartCurve>(coefficients, *given.span); });
  return read;
}

std::optional<ReadCurve> read_four_coefficient(const ValueNode& node, Figures& figures) {
  const Coefficients given(node, figures);
  const std::optional<double> d = figures.number(node, "d");
  const std::optional<Resistance> reference = figures.resistance(node, "reference_resistance");
  if (!given.complete() || !d || !reference) return std::nullopt;
  ReadCurve read;
  figures.guarded(node, [&] {
    read.curve = std::make_shared<FourCoefficientCurve>(
        FourCoefficientCurve::Coefficients{*reference, *given.a, *given.b, *given.c, *d}, *given.span);
  });
  return read;
}

std::optional<ReadCurve> read_chart(const ValueNode& node, Figures& figures) {
  const ValueNode* rows = node.find("rows");
  std::vector<CurvePoint> points = read_rows(*rows, figures);
  if (points.size() != rows->array()->size()) return std::nullopt;
  if (const std::optional<ChartTrouble> trouble = ChartCurve::trouble(points)) {
    figures.refuse((*rows->array())[trouble->row],
                   "row " + std::to_string(trouble->row + 1) + " of the chart: " + trouble->text);
    return std::nullopt;
  }
  ReadCurve read;
  read.curve = std::make_shared<ChartCurve>(std::move(points));
  return read;
}

std::optional<ReadCurve> read_platinum(const ValueNode& node, Figures& figures) {
  const std::optional<Resistance> ice_point = figures.resistance(node, "ice_point_resistance");
  const std::optional<std::string> name = figures.word(node, "class");
  const std::optional<PlatinumClass> platinum_class = name ? platinum_class_named(*name) : std::nullopt;
  if (!ice_point || !platinum_class) return std::nullopt;
  ReadCurve read;
  read.platinum_class = platinum_class;
  read.reference_temperature = Temperature::from_celsius(0.0);
  figures.guarded(node, [&] { read.curve = std::make_shared<PlatinumCurve>(*ice_point, *platinum_class); });
  return read;
}

}  // namespace

std::optional<ReadCurve> read_curve(const ValueNode& node, Figures& figures) {
  const std::string form = figures.word(node, "form").value_or("");
  std::optional<ReadCurve> read;
  if (form == "beta") read = read_beta(node, figures);
  if (form == "steinhart-hart") read = read_steinhart_hart(node, figures);
  if (form == "four-coefficient") read = read_four_coefficient(node, figures);
  if (form == "chart") read = read_chart(node, figures);
  if (form == "iec-60751") read = read_platinum(node, figures);
  if (read && read->curve == nullptr) read.reset();
  return read;
}

}  // namespace ohmwright::defrost_sensor
