#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/error_source.hpp>
#include <ohmwright/uncertainty/function_ref.hpp>

namespace ohmwright {

/// An independent input of a model: its value and what is believed of its error.
struct InputDistribution {
  std::string name;
  double value = 0.0;
  double standard_uncertainty = 0.0;  ///< ≥ 0, in the unit of the value; for Student's t its scale s/√n
  Shape shape = Shape::normal;
  double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

/// Two ends that hold a stated share of a distribution, in its unit.
struct CoverageInterval {
  double lower = 0.0;
  double upper = 0.0;
};

/// How a Monte Carlo run is made; seed and trials are printed with every result.
struct MonteCarloPlan {
  std::uint64_t seed = 20080701;  ///< any number: fixed, so that a second run says the same
  std::size_t trials = 200000;
};

/// Outcome of a Monte Carlo run: all trials in ascending order, and how they came about.
class OHMWRIGHT_CORE_API MonteCarloResult {
 public:
  /// Takes the trials in any order. Throws `Error` (internal) if there are fewer than two or one is not finite.
  MonteCarloResult(std::vector<double> values, MonteCarloPlan plan);

  std::span<const double> sorted_values() const { return values_; }
  std::uint64_t seed() const { return plan_.seed; }
  std::size_t trials() const { return values_.size(); }

  double mean() const { return mean_; }
  /// Standard deviation of the trials (JCGM 101, 7.6).
  double standard_uncertainty() const { return standard_uncertainty_; }
  /// Share of the trials with lower ≤ value ≤ upper [dimensionless].
  double probability_between(double lower, double upper) const;
  /// Standard error √(p(1 − p)/trials) of such a share.
  double standard_error_of(double probability) const;

  /// Interval with equal tails (JCGM 101, 7.7.2). Throws `Error` (internal) outside 0 < coverage < 1.
  CoverageInterval symmetric_interval(double coverage) const;
  /// Shortest interval (JCGM 101, 7.7.4). Throws `Error` (internal) outside 0 < coverage < 1.
  CoverageInterval shortest_interval(double coverage) const;

 private:
  std::size_t covered_trials(double coverage) const;

  std::vector<double> values_;
  MonteCarloPlan plan_;
  double mean_ = 0.0;
  double standard_uncertainty_ = 0.0;
};

/// Propagates whole distributions through `model` (JCGM 101:2008, 5.9): one call a trial with the inputs in their
/// order. Throws `Error` (internal) for fewer than two trials, a negative uncertainty or a model value that is not
/// finite.
OHMWRIGHT_CORE_API MonteCarloResult propagate_by_monte_carlo(FunctionRef<double(std::span<const double>)> model,
                                                             std::span<const InputDistribution> inputs,
                                                             MonteCarloPlan plan);

}  // namespace ohmwright
