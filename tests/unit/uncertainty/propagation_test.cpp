#include <array>
#include <cmath>
#include <limits>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/propagation.hpp>

#include "expect_error.hpp"

namespace ohmwright {
namespace {

double power_of(std::span<const double> x) { return x[0] * x[0] / x[1]; }
double difference(std::span<const double> x) { return x[0] - x[1]; }

TEST(Propagation, BudgetSharesAddUp) {
  const std::vector<PropagationInput> inputs{{"voltage", 118.2, 0.6}, {"resistance", 32.1, 0.285}};
  const Propagation result = propagate(power_of, inputs);
  EXPECT_NEAR(result.budget[0].sensitivity, 2.0 * 118.2 / 32.1, 1e-10);
  EXPECT_NEAR(result.budget[1].sensitivity, -118.2 * 118.2 / (32.1 * 32.1), 1e-10);
  EXPECT_NEAR(result.budget[0].share + result.budget[1].share, 1.0, 1e-14);
  EXPECT_EQ(result.budget[1].name, "resistance");
  EXPECT_EQ(result.degrees_of_freedom, std::numeric_limits<double>::infinity());
}

TEST(Propagation, FullCorrelationCancelsInADifference) {
  const std::vector<PropagationInput> inputs{{"before", 10.0, 0.2, 4.0}, {"after", 9.0, 0.2, 7.0}};
  const std::array<double, 4> together{1.0, 1.0, 1.0, 1.0};
  const Propagation result = propagate(difference, inputs, {together, {}, false});
  EXPECT_NEAR(result.standard_uncertainty, 0.0, 1e-12);
  EXPECT_EQ(result.degrees_of_freedom, 4.0);
}

TEST(Propagation, AnInputWithoutUncertaintyCostsNothing) {
  const std::vector<PropagationInput> inputs{{"a", 0.0, 0.0}, {"b", 1.0, 0.1}};
  const Propagation result = propagate(difference, inputs);
  EXPECT_EQ(result.budget[0].contribution, 0.0);
  EXPECT_NEAR(result.standard_uncertainty, 0.1, 1e-12);
}

TEST(Propagation, NothingUncertainGivesTheValue) {
  const auto constant = [](std::span<const double>) { return 7.0; };
  const Propagation result = propagate(constant, {});
  EXPECT_EQ(result.value, 7.0);
  EXPECT_EQ(result.standard_uncertainty, 0.0);
}

TEST(Propagation, SecondOrderOfASquare) {
  // y = x² with x normal: Var = 4x²u² + 2u⁴ exactly.
  const std::vector<PropagationInput> inputs{{"x", 0.5, 0.3}};
  const auto square = [](std::span<const double> x) { return x[0] * x[0]; };
  const Propagation result = propagate(square, inputs, {{}, {}, true});
  EXPECT_NEAR(result.standard_uncertainty, std::sqrt(0.09 + 2.0 * 0.0081), 1e-10);
  EXPECT_NEAR(result.first_order_standard_uncertainty, 0.3, 1e-10);
}

TEST(Propagation, JointResultsShareTheirInputs) {
  const std::vector<PropagationInput> inputs{{"a", 3.0, 0.3}, {"b", 1.0, 0.4}};
  const auto sum_and_difference = [](std::span<const double> x, std::span<double> y) {
    y[0] = x[0] + x[1];
    y[1] = x[0] - x[1];
  };
  const JointPropagation result = propagate_jointly(sum_and_difference, 2, inputs);
  EXPECT_NEAR(result.standard_uncertainty(0), 0.5, 1e-12);
  EXPECT_NEAR(result.covariance[1], 0.09 - 0.16, 1e-12);
  EXPECT_NEAR(result.correlation(0, 1), -0.28, 1e-12);
}

TEST(Propagation, RefusesACorrelationMatrixThatIsNone) {
  const std::vector<PropagationInput> inputs{{"a", 3.0, 0.3}, {"b", 1.0, 0.3}};
  const char* text = "a correlation matrix is symmetric, has 1 on its diagonal and nothing beyond −1 and 1";
  for (const std::array<double, 4>& matrix :
       {std::array{1.0, 0.5, 0.4, 1.0}, std::array{1.0, 1.5, 1.5, 1.0}, std::array{0.9, 0.0, 0.0, 1.0},
        std::array{1.0, std::nan(""), std::nan(""), 1.0}})
    test::expect_error([&] { propagate(difference, inputs, {matrix, {}, false}); }, ErrorCategory::internal, text);
  const std::array<double, 3> short_matrix{1.0, 0.0, 1.0};
  test::expect_error(
      [&] {
        propagate(difference, inputs, {short_matrix, {}, false});
      },
      ErrorCategory::internal, "a correlation matrix needs one row and one column for each input");
}

TEST(Propagation, RefusesCorrelationsThatContradictEachOther) {
  const std::vector<PropagationInput> inputs(3, {"x", 0.0, 1.0});
  const std::array<double, 9> impossible{1.0, -0.9, -0.9, -0.9, 1.0, -0.9, -0.9, -0.9, 1.0};
  const auto sum = [](std::span<const double> x) { return x[0] + x[1] + x[2]; };
  test::expect_error(
      [&] {
        propagate(sum, inputs, {impossible, {}, false});
      },
      ErrorCategory::internal, "the correlation matrix contradicts itself: it makes a variance negative");
}

TEST(Propagation, RefusesWhatItCannotCompute) {
  const std::array<double, 4> together{1.0, 0.5, 0.5, 1.0};
  const std::vector<PropagationInput> inputs{{"a", 3.0, 0.3}, {"b", 1.0, 0.3}};
  test::expect_error(
      [&] {
        propagate(difference, inputs, {together, {}, true});
      },
      ErrorCategory::internal, "second-order terms are known for independent inputs only");
  const std::array<double, 1> one{1.0};
  test::expect_error(
      [&] {
        propagate(difference, inputs, {{}, one, false});
      },
      ErrorCategory::internal, "given sensitivities need one figure for each input");
  const std::vector<PropagationInput> at_zero{{"a", 0.0, 0.1}};
  const auto logarithm = [](std::span<const double> x) { return std::log(x[0]); };
  test::expect_error([&] { propagate(logarithm, at_zero); }, ErrorCategory::input,
                     "the model gives no number at its inputs or close by; the inputs lie at the edge of its range");
  const std::vector<PropagationInput> negative{{"leads", 0.0, -0.1}};
  test::expect_error([&] { propagate(logarithm, negative); }, ErrorCategory::internal,
                     "the uncertainty of leads must be 0 or more");
  const std::vector<PropagationInput> no_freedom{{"leads", 0.0, 0.1, 0.0}};
  test::expect_error([&] { propagate(logarithm, no_freedom); }, ErrorCategory::internal,
                     "the degrees of freedom of leads must be above 0");
}

}  // namespace
}  // namespace ohmwright
