#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <ohmwright/uncertainty/fusion.hpp>

namespace ohmwright {

namespace {

using Rows = boost::container::static_vector<std::size_t, most_fused>;

/// Solves V·w = 1 over the chosen rows by elimination and scales w to the sum 1. A trace of independent noise keeps V
/// regular where two readings share all their errors.
FusionWeights unconstrained(std::span<const Estimate> estimates, const Rows& rows) {
  constexpr double noise_share = 1e-9;
  const std::size_t n = rows.size();
  std::array<std::array<double, most_fused + 1>, most_fused> m{};
  double trace = 0.0;
  for (const std::size_t row : rows) trace += estimates[row].variance();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) m[i][j] = covariance(estimates[rows[i]], estimates[rows[j]]);
    m[i][i] += trace > 0.0 ? noise_share * trace : 1.0;
    m[i][n] = 1.0;
  }
  for (std::size_t k = 0; k < n; ++k) {  // V is positive definite: no pivoting
    for (std::size_t i = k + 1; i < n; ++i) {
      const double factor = m[i][k] / m[k][k];
      for (std::size_t j = k; j <= n; ++j) m[i][j] -= factor * m[k][j];
    }
  }
  FusionWeights weights(n, 0.0);
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

}  // namespace

FusionWeights fusion_weights(std::span<const Estimate> estimates) {
  Rows rows;
  for (std::size_t i = 0; i < estimates.size(); ++i) rows.push_back(i);
  FusionWeights weights = unconstrained(estimates, rows);
  while (rows.size() > 1) {  // the most negative weight goes until none is left
    const auto least = std::min_element(weights.begin(), weights.end());
    if (*least >= 0.0) break;
    rows.erase(rows.begin() + (least - weights.begin()));
    weights = unconstrained(estimates, rows);
  }
  FusionWeights all(estimates.size(), 0.0);
  for (std::size_t i = 0; i < rows.size(); ++i) all[rows[i]] = weights[i];
  return all;
}

Estimate fuse(std::span<const Estimate> estimates) {
  const FusionWeights weights = fusion_weights(estimates);
  Estimate fused;
  for (std::size_t i = 0; i < estimates.size(); ++i)
    if (weights[i] != 0.0) fused.add_scaled(estimates[i], weights[i]);
  return fused;
}

bool can_be_fused(std::span<const Estimate> estimates, const Estimate& another) {
  if (estimates.size() == most_fused) return false;
  boost::container::static_vector<SourceIndex, Estimate::max_terms> sources;
  const auto take = [&sources](const Estimate& estimate) {
    for (const Term& term : estimate.terms()) {
      if (std::find(sources.begin(), sources.end(), term.source) != sources.end()) continue;
      if (sources.size() == sources.capacity()) return false;
      sources.push_back(term.source);
    }
    return true;
  };
  return std::all_of(estimates.begin(), estimates.end(), take) && take(another);
}

double worst_disagreement(std::span<const Estimate> estimates) {
  double worst = 0.0;
  for (std::size_t i = 0; i < estimates.size(); ++i) {
    for (std::size_t j = i + 1; j < estimates.size(); ++j) {
      Estimate difference = estimates[i];
      difference.add_scaled(estimates[j], -1.0);
      const double apart = std::abs(difference.value());
      const double u = difference.standard_uncertainty();
      if (apart > 0.0 && !(u > 0.0)) return std::numeric_limits<double>::infinity();
      if (apart > 0.0) worst = std::max(worst, apart / u);
    }
  }
  return worst;
}

double disagreement_of(const Estimate& one, const Estimate& another) {
  const double apart = std::abs(one.value() - another.value());
  const double u = std::hypot(one.standard_uncertainty(), another.standard_uncertainty());
  if (apart > 0.0 && !(u > 0.0)) return std::numeric_limits<double>::infinity();
  return apart > 0.0 ? apart / u : 0.0;
}

}  // namespace ohmwright
