#include "fit/doubts.hpp"

#include <algorithm>

namespace ohmwright::defrost_sensor {

std::vector<double> stated_doubts(std::span<const FitRow> rows, double beta_kelvin) {
  std::vector<double> doubts;
  for (const FitRow& row : rows) {
    const double kelvin_per_log = row.temperature.kelvin() * row.temperature.kelvin() / beta_kelvin;
    const double half_width = std::hypot(row.temperature_half_width, row.log_half_width * kelvin_per_log);
    if (!(half_width > 0.0)) return {};
    doubts.push_back(half_width / std::sqrt(3.0));
  }
  return doubts;
}

Fit fit_rows(const RowEquations& equations, std::span<const double> doubts) {
  const std::size_t count = equations.observed.size();
  std::vector<double> weights;
  for (std::size_t i = 0; i < count; ++i) {
    const double root = equations.kelvin_per_unit[i] / (doubts.empty() ? 1.0 : doubts[i]);
    weights.push_back(root * root);
  }
  const bool exact = count == equations.parameters;
  const WeightMeaning meaning = doubts.empty() && !exact ? WeightMeaning::relative : WeightMeaning::inverse_variance;
  Fit fit = fit_linear(equations.design, equations.parameters, equations.observed, weights, meaning);
  double factor = 1.0;
  if (doubts.empty())
    factor = exact ? 0.0 : 1.0;
  else if (!exact)
    factor = std::max(1.0, fit.weighted_sum_of_squares / static_cast<double>(fit.degrees_of_freedom));
  for (double& covariance : fit.covariance) covariance *= factor;
  return fit;
}

}  // namespace ohmwright::defrost_sensor
