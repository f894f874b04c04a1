#include <array>
#include <cmath>

#include <ohmwright/quantity/error.hpp>

#include "curves/beta_curve.hpp"
#include "fit/doubts.hpp"
#include "fit/form.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr double reference_celsius = 25.0;

double mean_inverse(const FitRows& rows) {
  double mean = 0.0;
  for (const FitRow& row : rows) mean += row.inverse_kelvin() / static_cast<double>(rows.size());
  return mean;
}

RowEquations equations_of(const FitRows& rows, double mean, std::span<const double> doubts) {
  RowEquations made;
  made.parameters = 2;
  for (const FitRow& row : rows) {
    made.design.push_back(1.0);
    made.design.push_back(row.inverse_kelvin() - mean);
    made.observed.push_back(row.log_resistance());
    // Without doubts plain least squares in ln R, as everybody else fits a beta. The slope of the kelvin is a common
    // factor, which no weight needs.
    made.kelvin_per_unit.push_back(doubts.empty() ? 1.0 : row.temperature.kelvin() * row.temperature.kelvin());
  }
  return made;
}

TemperatureSpan exact_between(const FitRows& rows, double mean) {
  double second = 0.0;
  double third = 0.0;
  for (const FitRow& row : rows) {
    const double u = row.inverse_kelvin() - mean;
    second += u * u / static_cast<double>(rows.size());
    third += u * u * u / static_cast<double>(rows.size());
  }
  const double middle = 0.5 * third / second;
  const double reach = std::sqrt(middle * middle + second);
  // To a hundredth of a kelvin: the line and the curve part by far less there.
  const auto rounded = [](double inverse) {
    return Temperature::from_celsius(std::round(100.0 * Temperature::from_kelvin(1.0 / inverse).celsius()) / 100.0);
  };
  return {rounded(mean + middle + reach), rounded(mean + middle - reach)};
}

}  // namespace

std::optional<Form> fit_beta(const FitRows& rows, std::span<const double> doubts) {
  if (rows.size() < 2) return std::nullopt;
  const double mean = mean_inverse(rows);
  RowEquations equations = equations_of(rows, mean, doubts);
  try {
    Fit fit = fit_rows(equations, {});
    if (!doubts.empty()) {  // the slope of the first fit turns ln R into kelvin
      for (double& kelvin : equations.kelvin_per_unit) kelvin /= fit.parameters[1];
      fit = fit_rows(equations, doubts);
    }
    const double to_reference = 1.0 / Temperature::from_celsius(reference_celsius).kelvin() - mean;
    const double reference = std::exp(fit.parameters[0] + fit.parameters[1] * to_reference);
    const double log_uncertainty = std::sqrt(fit.variance_of_combination(std::array{1.0, to_reference}));
    Form form;
    form.name = "beta";
    form.parameters = equations.parameters;
    form.figures = {{"reference_resistance", ten_digits(reference), reference * log_uncertainty, "ohm"},
                    {"beta", ten_digits(fit.parameters[1]), fit.standard_uncertainty(1), "K"}};
    BetaCurve::Figures rounded;
    rounded.reference_resistance = Resistance::from_value(form.figures[0].value);
    rounded.beta_kelvin = form.figures[1].value;
    rounded.defined_between = exact_between(rows, mean);
    form.curve = std::make_shared<BetaCurve>(rounded);
    form.curve_node = object_node({{"form", text_node(form.name)},
                                   {"reference_resistance", resistance_node(rounded.reference_resistance)},
                                   {"reference_temperature", celsius_node(rounded.reference_temperature)},
                                   {"beta", kelvin_node(rounded.beta_kelvin)},
                                   {"beta_between", span_node(rounded.defined_between)}});
    return form;
  } catch (const InputError&) {
    return std::nullopt;
  }
}

}  // namespace ohmwright::defrost_sensor
