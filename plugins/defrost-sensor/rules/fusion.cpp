#include "rules/fusion.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace ohmwright::defrost_sensor {

namespace {

using Weights = boost::container::static_vector<double, most_fused>;
using Rows = boost::container::static_vector<std::size_t, most_fused>;

/// Solves V·w = 1 over the chosen rows by elimination and scales w to the sum 1. A trace of independent noise keeps V
/// regular where two readings share all their errors.
Weights unconstrained(std::span<const Deviation> deviations, const Rows& rows) {
  constexpr double noise_share = 1e-9;
  const std::size_t n = rows.size();
  std::array<std::array<double, most_fused + 1>, most_fused> m{};
  double trace = 0.0;
  for (const std::size_t row : rows) trace += deviations[row].log.variance();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) m[i][j] = covariance(deviations[rows[i]].log, deviations[rows[j]].log);
    m[i][i] += trace > 0.0 ? noise_share * trace : 1.0;
    m[i][n] = 1.0;
  }
  for (std::size_t k = 0; k < n; ++k) {  // V is positive definite: no pivoting
    for (std::size_t i = k + 1; i < n; ++i) {
      const double factor = m[i][k] / m[k][k];
      for (std::size_t j = k; j <= n; ++j) m[i][j] -= factor * m[k][j];
    }
  }
  Weights weights(n, 0.0);
  double sum = 0.0;
  for (std::size_t k = n; k-- > 0;) {
    double rest = m[k][n];
    for (std::size_t j = k + 1; j < n; ++j) rest -= m[k][j] * weights[j];
    weights[k] = rest / m[k][k];
    sum += weights[k];
  }
  for (double& weight : weights) weight /= sum;
  return weights;
}

/// Drops the row with the most negative weight until none is left.
Weights nonnegative(std::span<const Deviation> deviations) {
  Rows rows;
  for (std::size_t i = 0; i < deviations.size(); ++i) rows.push_back(i);
  Weights weights = unconstrained(deviations, rows);
  while (rows.size() > 1) {
    const auto least = std::min_element(weights.begin(), weights.end());
    if (*least >= 0.0) break;
    rows.erase(rows.begin() + (least - weights.begin()));
    weights = unconstrained(deviations, rows);
  }
  Weights all(deviations.size(), 0.0);
  for (std::size_t i = 0; i < rows.size(); ++i) all[rows[i]] = weights[i];
  return all;
}

}  // namespace

Fusion fuse(std::span<const Deviation> deviations) {
  if (deviations.size() == 1) return {deviations[0].log, deviations[0].limits, {1.0}};
  Fusion fusion;
  fusion.weights = nonnegative(deviations);
  for (std::size_t i = 0; i < deviations.size(); ++i) {
    if (fusion.weights[i] == 0.0) continue;
    fusion.log.add_scaled(deviations[i].log, fusion.weights[i]);
    fusion.limits.lower += fusion.weights[i] * deviations[i].limits.lower;
    fusion.limits.upper += fusion.weights[i] * deviations[i].limits.upper;
  }
  return fusion;
}

bool fits(std::span<const Deviation> deviations, const Deviation& another) {
  if (deviations.size() == most_fused) return false;
  boost::container::static_vector<SourceIndex, Estimate::max_terms> sources;
  const auto take = [&sources](const Estimate& estimate) {
    for (const Term& term : estimate.terms()) {
      if (std::find(sources.begin(), sources.end(), term.source) != sources.end()) continue;
      if (sources.size() == sources.capacity()) return false;
      sources.push_back(term.source);
    }
    return true;
  };
  return std::all_of(deviations.begin(), deviations.end(), [&](const Deviation& d) { return take(d.log); }) &&
         take(another.log);
}

bool comparable(const Deviation& a, const Deviation& b) {
  return std::abs((a.temperature - b.temperature).value()) < least_kelvin_apart;
}

double disagreement(const SensorRatings& ratings, const Deviation& a, const Deviation& b) {
  Estimate difference = a.log;
  difference.add_scaled(b.log, -1.0);
  const LogLimits allowed = ratings.tolerance.of_difference(*ratings.curve, a.temperature, b.temperature);
  // At one temperature the tolerance explains nothing, for it is one part; it counts in full once R differs by e.
  const double share = std::min(1.0, std::abs(a.log_nominal - b.log_nominal));
  const double lower = share * allowed.lower;
  const double upper = share * allowed.upper;
  const double beyond = std::max({0.0, difference.value() - upper, lower - difference.value()});
  if (beyond == 0.0) return 0.0;
  const double u = difference.standard_uncertainty();
  return u > 0.0 ? beyond / u : std::numeric_limits<double>::infinity();
}

}  // namespace ohmwright::defrost_sensor
