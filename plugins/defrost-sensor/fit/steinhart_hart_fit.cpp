#include <array>
#include <cmath>

#include <ohmwright/quantity/error.hpp>

#include "curves/steinhart_hart_curve.hpp"
#include "fit/doubts.hpp"
#include "fit/form.hpp"

namespace ohmwright::defrost_sensor {

namespace {

struct Centred {
  RowEquations equations;
  double log_mean = 0.0;
  double cube_mean = 0.0;
};

Centred centred(const FitRows& rows) {
  Centred made;
  made.equations.parameters = 3;
  const auto count = static_cast<double>(rows.size());
  for (const FitRow& row : rows) {
    const double l = row.log_resistance();
    made.log_mean += l / count;
    made.cube_mean += l * l * l / count;
  }
  for (const FitRow& row : rows) {
    const double l = row.log_resistance();
    for (const double column : {1.0, l - made.log_mean, l * l * l - made.cube_mean})
      made.equations.design.push_back(column);
    made.equations.observed.push_back(row.inverse_kelvin());
    made.equations.kelvin_per_unit.push_back(row.temperature.kelvin() * row.temperature.kelvin());
  }
  return made;
}

FittedFigure coefficient(std::string name, double value, double variance) {
  return {std::move(name), ten_digits(value), std::sqrt(variance), "1/K"};
}

}  // namespace

std::optional<Form> fit_steinhart_hart(const FitRows& rows, std::span<const double> doubts) {
  const Centred made = centred(rows);
  if (rows.size() < made.equations.parameters) return std::nullopt;
  try {
    const Fit fit = fit_rows(made.equations, doubts);
    const auto variance = [&](double of_first, double of_second, double of_third) {
      return fit.variance_of_combination(std::array{of_first, of_second, of_third});
    };
    const double b = fit.parameters[1];
    const double c = fit.parameters[2];
    const double a = fit.parameters[0] - b * made.log_mean - c * made.cube_mean;
    const TemperatureSpan span{rows.front().temperature, rows.back().temperature};
    Form form;
    form.name = "steinhart-hart";
    form.parameters = made.equations.parameters;
    form.figures = {coefficient("a", a, variance(1.0, -made.log_mean, -made.cube_mean)),
                    coefficient("b", b, variance(0.0, 1.0, 0.0)), coefficient("c", c, variance(0.0, 0.0, 1.0))};
    SteinhartHartCurve::Coefficients rounded;
    rounded.a = form.figures[0].value;
    rounded.b = form.figures[1].value;
    rounded.c = form.figures[2].value;
    form.curve = std::make_shared<SteinhartHartCurve>(rounded, span);  // refuses what would turn back on itself
    form.curve_node = object_node({{"form", text_node(form.name)},
                                   {"a", number_node(rounded.a)},
                                   {"b", number_node(rounded.b)},
                                   {"c", number_node(rounded.c)},
                                   {"resistance_unit", text_node("ohm")},
                                   {"span", span_node(span)}});
    return form;
  } catch (const InputError&) {
    return std::nullopt;
  }
}

}  // namespace ohmwright::defrost_sensor
