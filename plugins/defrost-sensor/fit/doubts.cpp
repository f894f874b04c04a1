#include "fit/doubts.hpp"

#include <algorithm>

namespace ohmwright::defrost_sensor {

double stated_half_width(const FitRow& row, double beta_kelvin) {
  const double kelvin_per_log = row.temperature.kelvin() * row.temperature.kelvin() / beta_kelvin;
  return std::hypot(row.temperature_half_width, row.log_half_width * kelvin_per_log);
}

double slope_doubt(std::span<const FitRow> rows, double beta_kelvin) {
  constexpr double least_kelvin = 0.2;
  const double count = static_cast<double>(rows.size());
  double mean = 0.0;
  double middle_kelvin = 0.0;
  double variance = 0.0;
  for (const FitRow& row : rows) {
    mean += row.inverse_kelvin() / count;
    middle_kelvin += row.temperature.kelvin() / count;
    const double half_width = stated_half_width(row, beta_kelvin);
    variance += half_width * half_width / 3.0 / count;
  }
  double spread = 0.0;
  for (const FitRow& row : rows) spread += std::pow(row.inverse_kelvin() - mean, 2);
  const double kelvin = std::max(least_kelvin, std::sqrt(variance));
  return kelvin / (middle_kelvin * middle_kelvin) / std::sqrt(spread);
}

std::vector<double> stated_doubts(std::span<const FitRow> rows, double beta_kelvin) {
  std::vector<double> doubts;
  for (const FitRow& row : rows) {
    const double half_width = stated_half_width(row, beta_kelvin);
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
