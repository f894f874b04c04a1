#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/repeats.hpp>

#include "expect_error.hpp"

namespace ohmwright {
namespace {

TEST(Repeats, MeanAndItsUncertainty) {
  const std::vector<double> readings{32.1, 32.3, 32.2, 32.4};
  const RepeatedMean mean = mean_of_repeats(readings);
  EXPECT_NEAR(mean.mean, 32.25, 1e-13);
  EXPECT_NEAR(mean.standard_deviation, std::sqrt(0.05 / 3.0), 1e-13);
  EXPECT_NEAR(mean.standard_uncertainty, std::sqrt(0.05 / 12.0), 1e-13);
  EXPECT_EQ(mean.degrees_of_freedom, 3.0);
}

TEST(Repeats, WhatMovesTogetherIsCorrelated) {
  const std::vector<double> first{1.0, 2.0, 3.0};
  const std::vector<double> falling{6.0, 4.0, 2.0};
  const std::vector<double> still{5.0, 5.0, 5.0};
  EXPECT_NEAR(correlation_of_means(first, falling), -1.0, 1e-15);
  EXPECT_EQ(correlation_of_means(first, still), 0.0);
}

TEST(Repeats, OneReadingHasNoScatter) {
  test::expect_error([] { mean_of_repeats(std::vector{1.0}); }, ErrorCategory::internal,
                     "scatter needs at least two readings; give one more, or state an uncertainty");
  test::expect_error(
      [] {
        covariance_of_means(std::vector{1.0, 2.0}, std::vector{1.0, 2.0, 3.0});
      },
      ErrorCategory::internal, "quantities read together need equally many readings");
}

}  // namespace
}  // namespace ohmwright
