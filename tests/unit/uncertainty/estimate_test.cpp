#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/estimate.hpp>

#include "expect_error.hpp"

namespace ohmwright {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

TEST(Estimate, TermsOfOneSourceMergeWithTheirSigns) {
  Estimate estimate(10.0);
  estimate.add_term(3, 0.5);
  estimate.add_term(1, 0.2);
  estimate.add_term(3, -0.2);
  ASSERT_EQ(estimate.terms().size(), 2U);
  EXPECT_DOUBLE_EQ(estimate.terms()[0].standard_uncertainty, 0.3);
  EXPECT_DOUBLE_EQ(estimate.variance(), 0.3 * 0.3 + 0.2 * 0.2);
  EXPECT_DOUBLE_EQ(estimate.standard_uncertainty(), std::hypot(0.3, 0.2));
}

TEST(Estimate, ADifferenceLosesWhatIsCommon) {
  Estimate reading(32.4);
  reading.add_term(0, 0.1);
  reading.add_term(1, 0.05);
  Estimate leads(0.3);
  leads.add_term(0, 0.1);
  leads.add_term(2, 0.02);
  reading.add_scaled(leads, -1.0);
  EXPECT_DOUBLE_EQ(reading.value(), 32.1);
  EXPECT_DOUBLE_EQ(reading.standard_uncertainty(), std::hypot(0.05, 0.02));
}

TEST(Estimate, MayBeAddedToItself) {
  Estimate estimate(2.0);
  estimate.add_term(0, 0.1);
  estimate.add_scaled(estimate, 1.0);
  EXPECT_DOUBLE_EQ(estimate.value(), 4.0);
  EXPECT_DOUBLE_EQ(estimate.standard_uncertainty(), 0.2);
  estimate.add_uncertainty(estimate, -1.0);
  EXPECT_DOUBLE_EQ(estimate.value(), 4.0);
  EXPECT_DOUBLE_EQ(estimate.standard_uncertainty(), 0.0);
}

TEST(Estimate, RefusesMoreSourcesThanItHolds) {
  Estimate estimate(0.0);
  for (SourceIndex source = 0; source < Estimate::max_terms; ++source) estimate.add_term(source, 1.0);
  estimate.add_term(5, 1.0);  // merged, so no further place is needed
  test::expect_error([&] { estimate.add_term(100, 1.0); }, ErrorCategory::internal,
                     "an estimate holds at most 24 error sources; merge some before adding more");
}

TEST(Estimate, CovarianceRunsThroughSharedSources) {
  Estimate first(1.0);
  first.add_term(0, 0.3);
  first.add_term(1, 0.4);
  Estimate second(2.0);
  second.add_term(1, -0.5);
  second.add_term(2, 0.6);
  EXPECT_DOUBLE_EQ(covariance(first, second), -0.2);
  EXPECT_DOUBLE_EQ(covariance(first, first), first.variance());
}

TEST(Estimate, KnownSourcesHaveInfiniteDegreesOfFreedom) {
  Estimate estimate(0.0);
  const std::vector<ErrorSource> sources{{"meter-gain", ""}, {"repeats", "", Shape::student_t, 4.0}};
  EXPECT_EQ(effective_degrees_of_freedom(estimate, sources), infinity);
  estimate.add_term(0, 0.1);
  EXPECT_EQ(effective_degrees_of_freedom(estimate, sources), infinity);
  estimate.add_term(1, 0.1);
  EXPECT_DOUBLE_EQ(effective_degrees_of_freedom(estimate, sources), 16.0);
}

TEST(ProbabilityBetween, ACertainValueIsInOrOut) {
  const std::vector<ErrorSource> none;
  EXPECT_EQ(probability_between(Estimate(1.0), none, 1.0, 2.0), 1.0);
  EXPECT_EQ(probability_between(Estimate(1.0), none, 1.1, 2.0), 0.0);
}

TEST(ProbabilityBetween, OneSidedLimits) {
  Estimate estimate(1.0);
  estimate.add_term(0, 0.1);
  const std::vector<ErrorSource> rectangle{{"counts", "", Shape::rectangular}};
  EXPECT_NEAR(probability_between(estimate, rectangle, 1.0, infinity), 0.5, 1e-15);
  EXPECT_NEAR(probability_between(estimate, rectangle, -infinity, 1.0 + 0.05 * std::numbers::sqrt3), 0.75, 1e-15);
  EXPECT_EQ(probability_between(estimate, rectangle, -infinity, infinity), 1.0);
  for (const Shape shape : {Shape::normal, Shape::triangular, Shape::arcsine, Shape::student_t}) {
    const std::vector<ErrorSource> source{{"source", "", shape, 5.0}};
    EXPECT_NEAR(probability_between(estimate, source, -infinity, 1.0), 0.5, 1e-15);
    EXPECT_NEAR(probability_between(estimate, source, -infinity, infinity), 1.0, 1e-15);
  }
}

TEST(ProbabilityBetween, ReversedLimitsHoldNothing) {
  Estimate estimate(1.0);
  estimate.add_term(0, 0.1);
  for (const Shape shape : {Shape::normal, Shape::rectangular, Shape::arcsine, Shape::student_t}) {
    const std::vector<ErrorSource> source{{"source", "", shape, 5.0}};
    EXPECT_EQ(probability_between(estimate, source, 1.1, 0.9), 0.0);
  }
}

TEST(ProbabilityBetween, ANotANumberIsNeverAPass) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const Shape shape : {Shape::normal, Shape::rectangular, Shape::triangular, Shape::arcsine, Shape::student_t}) {
    const std::vector<ErrorSource> source{{"source", "", shape, 5.0}};
    Estimate no_value(nan);
    no_value.add_term(0, 0.1);
    EXPECT_TRUE(std::isnan(probability_between(no_value, source, 0.0, 2.0)));
    Estimate no_uncertainty(1.0);
    no_uncertainty.add_term(0, nan);
    EXPECT_TRUE(std::isnan(probability_between(no_uncertainty, source, 0.0, 2.0)));
    Estimate sound(1.0);
    sound.add_term(0, 0.1);
    EXPECT_TRUE(std::isnan(probability_between(sound, source, nan, 2.0)));
    EXPECT_TRUE(std::isnan(probability_between(sound, source, 0.0, nan)));
  }
  EXPECT_TRUE(std::isnan(probability_between(Estimate(nan), {}, 0.0, 2.0)));
}

TEST(ProbabilityBetween, TheUnitDoesNotMatter) {
  const std::vector<ErrorSource> sources{{"n", "", Shape::normal},
                                         {"r", "", Shape::rectangular},
                                         {"r", "", Shape::rectangular},
                                         {"t", "", Shape::student_t, 4}};
  const auto in_unit = [&](double unit) {
    Estimate estimate(10.0 * unit);
    SourceIndex source = 0;
    for (const double u : {0.1, 0.2, 0.05, 0.1}) estimate.add_term(source++, u * unit);
    return probability_between(estimate, sources, 9.7 * unit, 10.4 * unit);
  };
  EXPECT_NEAR(in_unit(1e-12), in_unit(1.0), 1e-12);
  EXPECT_NEAR(in_unit(1e9), in_unit(1.0), 1e-12);
}

TEST(ProbabilityBetween, RefusesASourceThatIsNotThere) {
  Estimate estimate(1.0);
  estimate.add_term(2, 0.1);
  const std::vector<ErrorSource> one{{"meter-gain", ""}};
  const std::string text = "error term of source 2, but there are only 1";
  test::expect_error([&] { probability_between(estimate, one, 0.0, 1.0); }, ErrorCategory::internal, text);
  test::expect_error([&] { effective_degrees_of_freedom(estimate, one); }, ErrorCategory::internal, text);
}

}  // namespace
}  // namespace ohmwright
