#include <cmath>
#include <limits>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/least_squares.hpp>

#include "expect_error.hpp"

namespace ohmwright {
namespace {

const std::vector<double> line_design{1.0, 0.0, 1.0, 1.0, 1.0, 2.0, 1.0, 3.0};

TEST(LinearFit, ExactDataGiveExactParameters) {
  const Fit fit = fit_linear(line_design, 2, std::vector{1.0, 3.0, 5.0, 7.0});
  EXPECT_NEAR(fit.parameters[0], 1.0, 1e-14);
  EXPECT_NEAR(fit.parameters[1], 2.0, 1e-14);
  EXPECT_NEAR(fit.residual_standard_deviation(), 0.0, 1e-14);
}

TEST(LinearFit, ColumnsOfVeryDifferentSizeDoNotMatter) {
  std::vector<double> scaled = line_design;
  for (std::size_t i = 1; i < scaled.size(); i += 2) scaled[i] *= 1e12;
  const Fit fit = fit_linear(scaled, 2, std::vector{1.0, 3.1, 4.9, 7.0});
  const Fit plain = fit_linear(line_design, 2, std::vector{1.0, 3.1, 4.9, 7.0});
  EXPECT_NEAR(fit.parameters[1] * 1e12, plain.parameters[1], 1e-12);
  EXPECT_NEAR(fit.correlation(0, 1), plain.correlation(0, 1), 1e-12);
}

TEST(LinearFit, KnownWeightsFixTheScaleOfTheCovariance) {
  const std::vector<double> observed{1.0, 3.1, 4.9, 7.0};
  const std::vector<double> weights(4, 4.0);  // u = 0.5 each
  const Fit known = fit_linear(line_design, 2, observed, weights, WeightMeaning::inverse_variance);
  EXPECT_NEAR(known.standard_uncertainty(1), 0.5 / std::sqrt(5.0), 1e-14);
  const Fit relative = fit_linear(line_design, 2, observed, weights);
  const Fit plain = fit_linear(line_design, 2, observed);
  EXPECT_NEAR(relative.standard_uncertainty(1), plain.standard_uncertainty(1), 1e-14);
}

TEST(LinearFit, ExactlyEnoughPointsNeedKnownWeights) {
  const std::vector<double> design{1.0, 0.0, 1.0, 1.0};
  const Fit fit = fit_linear(design, 2, std::vector{1.0, 3.0}, std::vector{1.0, 1.0}, WeightMeaning::inverse_variance);
  EXPECT_NEAR(fit.parameters[1], 2.0, 1e-14);
  EXPECT_TRUE(std::isnan(fit.residual_standard_deviation()));
  test::expect_error(
      [&] {
        fit_linear(design, 2, std::vector{1.0, 3.0});
      },
      ErrorCategory::input, "a fit of 2 parameters got 2 points; it needs at least 3");
}

TEST(LinearFit, RefusesPointsThatTellNothing) {
  const std::vector<double> same{1.0, 2.0, 1.0, 2.0, 1.0, 2.0};
  test::expect_error(
      [&] {
        fit_linear(same, 2, std::vector{1.0, 1.1, 0.9});
      },
      ErrorCategory::input,
      "the points of the fit do not tell its parameters apart; add points further away from each other");
  const std::vector<double> empty{1.0, 0.0, 1.0, 0.0, 1.0, 0.0};
  test::expect_error(
      [&] {
        fit_linear(empty, 2, std::vector{1.0, 1.1, 0.9});
      },
      ErrorCategory::input,
      "a parameter of the fit has no influence on the points; leave it out or add points that show it");
}

TEST(LinearFit, RefusesWhatIsNotANumber) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  test::expect_error(
      [&] {
        fit_linear(line_design, 2, std::vector{1.0, nan, 5.0, 7.0});
      },
      ErrorCategory::input, "point 2 of a fit is not a number");
  test::expect_error(
      [&] {
        fit_linear(line_design, 2, std::vector{1.0, 3.0, 5.0, 7.0}, std::vector{1.0, 1.0, 0.0, 1.0});
      },
      ErrorCategory::input, "the weight of point 3 of a fit must be above 0");
  std::vector<double> broken = line_design;
  broken[3] = nan;
  test::expect_error(
      [&] {
        fit_linear(broken, 2, std::vector{1.0, 3.0, 5.0, 7.0});
      },
      ErrorCategory::input, "the design of a linear fit holds something that is not a number");
  test::expect_error(
      [&] {
        fit_linear(line_design, 2, std::vector{1.0, 3.0, 5.0});
      },
      ErrorCategory::internal, "a linear fit needs one row of the design for each observation");
}

TEST(NonlinearFit, RecoversADecayWithAStartAtZero) {
  std::vector<double> observed;
  for (int i = 0; i < 20; ++i) observed.push_back(3.0 * std::exp(-0.2 * i) + 1.0);
  const auto model = [](std::span<const double> p, std::span<double> fitted) {
    for (std::size_t i = 0; i < fitted.size(); ++i) fitted[i] = p[0] * std::exp(-p[1] * static_cast<double>(i)) + p[2];
  };
  const Fit fit = fit_nonlinear(model, std::vector{1.0, 0.1, 0.0}, observed);
  EXPECT_NEAR(fit.parameters[0], 3.0, 1e-10);
  EXPECT_NEAR(fit.parameters[1], 0.2, 1e-11);
  EXPECT_NEAR(fit.parameters[2], 1.0, 1e-10);
  EXPECT_GT(fit.iterations, 0);
}

TEST(NonlinearFit, SaysThatThereIsNoMinimumInReach) {
  const auto model = [](std::span<const double>, std::span<double> fitted) {
    for (double& value : fitted) value = std::numeric_limits<double>::quiet_NaN();
  };
  test::expect_error(
      [&] {
        fit_nonlinear(model, std::vector{1.0}, std::vector{1.0, 2.0, 3.0});
      },
      ErrorCategory::input, "no minimum was found for the fit; give starting values nearer to the answer");
  const double nan = std::numeric_limits<double>::quiet_NaN();
  test::expect_error(
      [&] {
        fit_nonlinear(model, std::vector{nan}, std::vector{1.0, 2.0, 3.0});
      },
      ErrorCategory::input, "a starting value of a fit is not a number");
}

TEST(Fit, RefusesACombinationOfTheWrongSize) {
  const Fit fit = fit_linear(line_design, 2, std::vector{1.0, 3.1, 4.9, 7.0});
  test::expect_error([&] { (void)fit.variance_of_combination(std::vector{1.0}); }, ErrorCategory::internal,
                     "a combination of fitted parameters needs one coefficient for each");
}

}  // namespace
}  // namespace ohmwright
