#include <cmath>
#include <limits>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/monte_carlo.hpp>

#include "expect_error.hpp"

namespace ohmwright {
namespace {

std::vector<double> count_up(int to) {
  std::vector<double> values;
  for (int i = to; i >= 1; --i) values.push_back(i);
  return values;
}

TEST(MonteCarlo, ResultSortsAndSummarises) {
  const MonteCarloResult result(count_up(100), {.seed = 9, .trials = 100});
  EXPECT_EQ(result.seed(), 9U);
  EXPECT_EQ(result.trials(), 100U);
  EXPECT_DOUBLE_EQ(result.mean(), 50.5);
  EXPECT_NEAR(result.standard_uncertainty(), std::sqrt(100.0 * 101.0 / 12.0), 1e-12);
  EXPECT_DOUBLE_EQ(result.probability_between(11.0, 20.0), 0.10);
  EXPECT_DOUBLE_EQ(result.probability_between(20.0, 11.0), 0.0);
  EXPECT_DOUBLE_EQ(result.standard_error_of(0.5), 0.05);
}

TEST(MonteCarlo, ShortestIntervalSitsWhereTheTrialsAreDense) {
  std::vector<double> values = count_up(10);
  for (int i = 0; i < 90; ++i) values.push_back(100.0 + 0.01 * i);
  const MonteCarloResult result(values, {.seed = 1, .trials = values.size()});
  const CoverageInterval shortest = result.shortest_interval(0.8);
  EXPECT_GE(shortest.lower, 100.0);
  EXPECT_LT(shortest.upper - shortest.lower, 0.9);
  EXPECT_LT(result.symmetric_interval(0.95).lower, 10.0);
}

TEST(MonteCarlo, SameSeedSameTrials) {
  const std::vector<InputDistribution> inputs{{"a", 1.0, 0.1}, {"b", 2.0, 0.1, Shape::student_t, 4.0}};
  const auto product = [](std::span<const double> x) { return x[0] * x[1]; };
  const auto first = propagate_by_monte_carlo(product, inputs, {.seed = 5, .trials = 1000});
  const auto second = propagate_by_monte_carlo(product, inputs, {.seed = 5, .trials = 1000});
  const auto other = propagate_by_monte_carlo(product, inputs, {.seed = 6, .trials = 1000});
  EXPECT_EQ(first.mean(), second.mean());
  EXPECT_EQ(first.sorted_values().back(), second.sorted_values().back());
  EXPECT_NE(first.mean(), other.mean());
}

TEST(MonteCarlo, RefusesWhatGivesNoDistribution) {
  const std::vector<InputDistribution> inputs{{"a", 0.0, 1.0}};
  const auto logarithm = [](std::span<const double> x) { return std::log(x[0]); };
  test::expect_error([&] { propagate_by_monte_carlo(logarithm, inputs, {.seed = 1, .trials = 100}); },
                     ErrorCategory::internal,
                     "a Monte Carlo trial gave no finite number; narrow the inputs to where the model holds");
  test::expect_error([&] { propagate_by_monte_carlo(logarithm, inputs, {.seed = 1, .trials = 1}); },
                     ErrorCategory::internal, "a Monte Carlo run needs at least two trials");
  const std::vector<InputDistribution> negative{{"leads", 0.0, -1.0}};
  test::expect_error([&] { propagate_by_monte_carlo(logarithm, negative, {}); }, ErrorCategory::internal,
                     "the uncertainty of leads must be 0 or more");
  const MonteCarloResult result(count_up(10), {});
  test::expect_error([&] { result.shortest_interval(1.0); }, ErrorCategory::internal,
                     "a coverage probability must lie between 0 and 1");
}

}  // namespace
}  // namespace ohmwright
