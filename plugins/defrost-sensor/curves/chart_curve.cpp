#include "curves/chart_curve.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numeric>

#include <ohmwright/quantity/error.hpp>

#include "curves/guards.hpp"
#include "curves/slope_change.hpp"

namespace ohmwright::defrost_sensor {

namespace {

std::string shown(const CurvePoint& row) {
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%.6g degC, %.6g ohm", row.temperature.celsius(), row.resistance.value());
  return text.data();
}

double beta_between(const CurvePoint& cold, const CurvePoint& hot) {
  return std::log(cold.resistance.value() / hot.resistance.value()) /
         (1.0 / cold.temperature.kelvin() - 1.0 / hot.temperature.kelvin());
}

bool plausible(double beta) { return beta >= smallest_beta_kelvin && beta <= largest_beta_kelvin; }

/// Whether a factor of 1000 on one of the two would make the step a thermistor's.
bool unit_slipped(const CurvePoint& cold, const CurvePoint& hot) {
  const double slip = std::log(1000.0) / (1.0 / cold.temperature.kelvin() - 1.0 / hot.temperature.kelvin());
  const double beta = beta_between(cold, hot);
  return plausible(beta + slip) || plausible(beta - slip);
}

std::string step_trouble(const CurvePoint& cold, const CurvePoint& hot) {
  const double beta = beta_between(cold, hot);
  if (plausible(beta)) return {};
  const std::string pair = "from (" + shown(cold) + ") to (" + shown(hot) + ")";
  if (unit_slipped(cold, hot)) return "the unit seems to have slipped: " + pair + " ohm and kilohm are mixed";
  if (cold.resistance <= hot.resistance)
    return pair + " the resistance does not fall; a thermistor's falls as it gets warmer";
  return pair + " the step is no thermistor's; check both figures";
}

}  // namespace

std::optional<ChartTrouble> ChartCurve::trouble(const std::vector<CurvePoint>& rows) {
  if (rows.size() < 2) return ChartTrouble{0, "a chart needs at least two rows"};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (!(rows[i].resistance.value() > 0.0)) return ChartTrouble{i, "a resistance must be above 0 ohm"};
    if (!thermistor_domain().contains(rows[i].temperature))
      return ChartTrouble{i, shown(rows[i]) + " is no temperature of a thermistor; check the unit"};
  }
  std::vector<std::size_t> order(rows.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return rows[a].temperature < rows[b].temperature; });
  for (std::size_t i = 1; i < order.size(); ++i) {
    const CurvePoint& cold = rows[order[i - 1]];
    const CurvePoint& hot = rows[order[i]];
    const std::size_t later = std::max(order[i - 1], order[i]);
    if (cold.temperature == hot.temperature)
      return ChartTrouble{later, "the temperature of (" + shown(hot) + ") stands twice"};
    std::string text = step_trouble(cold, hot);
    if (!text.empty()) return ChartTrouble{later, std::move(text)};
  }
  return std::nullopt;
}

ChartCurve::ChartCurve(std::vector<CurvePoint> rows)
    : span_{Temperature::from_kelvin(0.0), Temperature::from_kelvin(0.0)} {
  if (const std::optional<ChartTrouble> found = trouble(rows))
    throw InputError("row " + std::to_string(found->row + 1) + ": " + found->text);
  std::sort(rows.begin(), rows.end(),
            [](const CurvePoint& a, const CurvePoint& b) { return a.temperature < b.temperature; });
  for (const CurvePoint& row : rows)
    nodes_.push_back({1.0 / row.temperature.kelvin(), std::log(row.resistance.value())});
  span_ = {rows.front().temperature, rows.back().temperature};
}

ChartCurve::Segment ChartCurve::segment_at(double inverse_kelvin) const {
  const auto hot = std::upper_bound(nodes_.begin() + 1, nodes_.end() - 1, inverse_kelvin,
                                    [](double x, const Node& node) { return x >= node.inverse_kelvin; });
  return {*(hot - 1), *hot};
}

ChartCurve::Segment ChartCurve::segment_at_log(double log_resistance) const {
  const auto hot = std::upper_bound(nodes_.begin() + 1, nodes_.end() - 1, log_resistance,
                                    [](double l, const Node& node) { return l >= node.log_resistance; });
  return {*(hot - 1), *hot};
}

double ChartCurve::log_resistance(Temperature t) const {
  const double x = 1.0 / t.kelvin();
  const Segment segment = segment_at(x);
  return segment.hot.log_resistance + segment.beta() * (x - segment.hot.inverse_kelvin);
}

double ChartCurve::log_slope(Temperature t) const {
  return -segment_at(1.0 / t.kelvin()).beta() / (t.kelvin() * t.kelvin());
}

std::optional<Temperature> ChartCurve::temperature_at(double log_resistance) const {
  const Segment segment = segment_at_log(log_resistance);
  return temperature_from_inverse(
      segment.hot.inverse_kelvin + (log_resistance - segment.hot.log_resistance) / segment.beta(), domain());
}

double ChartCurve::model_error(Temperature t) const {
  const Segment segment = segment_at(1.0 / t.kelvin());
  const Temperature hot = Temperature::from_kelvin(1.0 / segment.hot.inverse_kelvin);
  const Temperature cold = Temperature::from_kelvin(1.0 / segment.cold.inverse_kelvin);
  if (cold <= t && t <= hot) return error_between_rows(t, cold, hot);
  return error_of_straight_line(t, hot, cold, segment.beta());
}

bool ChartCurve::errs_to_one_side(Temperature t) const { return bend_has_known_sense(t); }

}  // namespace ohmwright::defrost_sensor
