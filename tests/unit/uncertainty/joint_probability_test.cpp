#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>

#include "expect_error.hpp"

namespace ohmwright {
namespace {

LimitedEstimate between(double lower, double upper) { return {Estimate(0.0), lower, upper}; }

TEST(JointProbability, IndependentEstimatesMultiply) {
  const double half = coverage_factor(0.95, std::numeric_limits<double>::infinity());
  const std::vector<ErrorSource> sources(3, {"scatter", "", Shape::normal});
  std::vector<LimitedEstimate> estimates;
  for (SourceIndex i = 0; i < 3; ++i) {
    estimates.push_back(between(-half, half));
    estimates.back().estimate.add_term(i, 1.0);
  }
  const JointProbability joint = joint_probability(estimates, sources);
  EXPECT_NEAR(joint.probability, 0.857375, 1e-14);
  EXPECT_EQ(joint.method, JointMethod::product);
  EXPECT_EQ(joint.standard_error, 0.0);
}

TEST(JointProbability, NothingToHoldIsHeld) { EXPECT_EQ(joint_probability({}, {}).probability, 1.0); }

TEST(JointProbability, OneEstimateIsItsOwnProbability) {
  const std::vector<ErrorSource> sources{{"n", "", Shape::normal}, {"r", "", Shape::rectangular}};
  LimitedEstimate one = between(-1.0, 0.5);
  one.estimate.add_term(0, 0.3);
  one.estimate.add_term(1, 0.6);
  EXPECT_EQ(joint_probability(std::vector{one}, sources).probability,
            probability_between(one.estimate, sources, one.lower, one.upper));
}

TEST(JointProbability, TheSameErrorTwiceCountsOnce) {
  for (const Shape shape : {Shape::normal, Shape::rectangular, Shape::triangular, Shape::arcsine, Shape::student_t}) {
    const std::vector<ErrorSource> sources{{"gain", "", shape, 4.0}};
    LimitedEstimate first = between(-1.0, 0.8);
    first.estimate.add_term(0, 1.0);
    LimitedEstimate second = between(-0.5, 2.0);
    second.estimate.add_term(0, 1.0);
    const JointProbability joint = joint_probability(std::vector{first, second}, sources);
    EXPECT_NEAR(joint.probability, probability_between(first.estimate, sources, -0.5, 0.8), 1e-9);
    EXPECT_EQ(joint.method, JointMethod::quadrature);
  }
}

TEST(JointProbability, OppositeErrorsExcludeEachOther) {
  const std::vector<ErrorSource> sources{{"gain", "", Shape::normal}};
  LimitedEstimate first = between(0.0, 10.0);
  first.estimate.add_term(0, 1.0);
  LimitedEstimate second = between(0.0, 10.0);
  second.estimate.add_term(0, -1.0);
  EXPECT_NEAR(joint_probability(std::vector{first, second}, sources).probability, 0.0, 1e-12);
}

TEST(JointProbability, QuadrantOfTwoCorrelatedNormals) {
  // P(X > 0, Y > 0) = ¼ + asin(ρ)/(2π), the correlation made by one, two or three shared sources.
  const double infinity = std::numeric_limits<double>::infinity();
  const std::vector<ErrorSource> sources(5, {"source", "", Shape::normal});
  for (int shared = 1; shared <= 3; ++shared) {
    LimitedEstimate first = between(0.0, infinity);
    LimitedEstimate second = between(0.0, infinity);
    for (int i = 0; i < shared; ++i) {
      first.estimate.add_term(static_cast<SourceIndex>(i), 0.6);
      second.estimate.add_term(static_cast<SourceIndex>(i), 0.5 - 0.3 * i);  // no two in the same proportion
    }
    first.estimate.add_term(3, 0.8);
    second.estimate.add_term(4, 0.7);
    const double correlation = covariance(first.estimate, second.estimate) /
                               (first.estimate.standard_uncertainty() * second.estimate.standard_uncertainty());
    const JointProbability joint = joint_probability(std::vector{first, second}, sources);
    EXPECT_EQ(joint.method, JointMethod::quadrature);
    EXPECT_NEAR(joint.probability, 0.25 + std::asin(correlation) / (2.0 * std::numbers::pi), shared == 1 ? 1e-8 : 1e-6)
        << shared;
  }
}

TEST(JointProbability, ManySharedSourcesAreDrawnAndSaySo) {
  const double infinity = std::numeric_limits<double>::infinity();
  const std::vector<ErrorSource> sources(6, {"source", "", Shape::normal});
  LimitedEstimate first = between(0.0, infinity);
  LimitedEstimate second = between(0.0, infinity);
  for (SourceIndex i = 0; i < 4; ++i) {
    first.estimate.add_term(i, 0.5);
    second.estimate.add_term(i, 0.2 + 0.2 * i);
  }
  first.estimate.add_term(4, 1.0);
  second.estimate.add_term(5, 1.0);
  const double correlation = covariance(first.estimate, second.estimate) /
                             (first.estimate.standard_uncertainty() * second.estimate.standard_uncertainty());
  const JointProbability joint = joint_probability(std::vector{first, second}, sources);
  EXPECT_EQ(joint.method, JointMethod::monte_carlo);
  EXPECT_EQ(joint.trials, 40000U);
  EXPECT_NE(joint.seed, 0U);
  EXPECT_GT(joint.standard_error, 0.0);
  EXPECT_LT(joint.standard_error, 0.002);
  EXPECT_NEAR(joint.probability, 0.25 + std::asin(correlation) / (2.0 * std::numbers::pi), 4.0 * joint.standard_error);
  EXPECT_EQ(joint.probability, joint_probability(std::vector{first, second}, sources).probability);
}

TEST(JointProbability, SourcesInTheSameProportionsCountAsOne) {
  // Five sources in the proportion 2 : 1 need one integral, and agree with the five summed up by hand.
  std::vector<ErrorSource> sources(7, {"source", "", Shape::rectangular});
  sources[1].shape = Shape::normal;
  sources[2].shape = Shape::triangular;
  std::vector<LimitedEstimate> pair(2, between(-1.0, 1.2));
  for (SourceIndex i = 0; i < 5; ++i) {
    pair[0].estimate.add_term(i, 0.1 * (i + 1));
    pair[1].estimate.add_term(i, 0.05 * (i + 1));
  }
  pair[0].estimate.add_term(5, 0.3);
  const JointProbability together = joint_probability(pair, sources);
  EXPECT_EQ(together.method, JointMethod::quadrature);
  // The second alone is certain to hold where the first does, but for its own 0.05: compare with one estimate.
  pair[1].lower = -100.0;
  pair[1].upper = 100.0;
  EXPECT_NEAR(joint_probability(pair, sources).probability, probability_between(pair[0].estimate, sources, -1.0, 1.2),
              1e-8);
  // With opposite limits on the second, the two cases add up to the first alone.
  pair[1].upper = 0.1;
  const double below = joint_probability(pair, sources).probability;
  pair[1].lower = 0.1;
  pair[1].upper = 100.0;
  const double above = joint_probability(pair, sources).probability;
  EXPECT_NEAR(below + above, probability_between(pair[0].estimate, sources, -1.0, 1.2), 1e-8);
}

TEST(JointProbability, ProportionalSourcesOfOneShapeMeetTheQuadrantFormula) {
  const double infinity = std::numeric_limits<double>::infinity();
  const std::vector<ErrorSource> sources(6, {"source", "", Shape::normal});
  LimitedEstimate first = between(0.0, infinity);
  LimitedEstimate second = between(0.0, infinity);
  for (SourceIndex i = 0; i < 4; ++i) {
    first.estimate.add_term(i, 0.5);
    second.estimate.add_term(i, -0.25);
  }
  first.estimate.add_term(4, 1.0);
  second.estimate.add_term(5, 0.5);
  const JointProbability joint = joint_probability(std::vector{first, second}, sources);
  EXPECT_EQ(joint.method, JointMethod::quadrature);
  EXPECT_NEAR(joint.probability, 0.25 - std::asin(0.5) / (2.0 * std::numbers::pi), 1e-8);
}

TEST(JointProbability, GroupsThatShareNothingMultiply) {
  const std::vector<ErrorSource> sources(6, {"source", "", Shape::rectangular});
  std::vector<LimitedEstimate> pair(2, between(-1.0, 1.2));
  pair[0].estimate.add_term(0, 0.5);
  pair[0].estimate.add_term(1, 0.5);
  pair[1].estimate.add_term(0, 0.4);
  pair[1].estimate.add_term(2, 0.6);
  LimitedEstimate alone = between(-0.5, 0.5);
  alone.estimate.add_term(3, 0.5);
  const double of_pair = joint_probability(pair, sources).probability;
  const double of_alone = probability_between(alone.estimate, sources, -0.5, 0.5);
  EXPECT_NEAR(joint_probability(std::vector{pair[0], alone, pair[1]}, sources).probability, of_pair * of_alone, 1e-12);
}

TEST(JointProbability, ANotANumberIsNeverAPass) {
  const std::vector<ErrorSource> sources(2, {"source", "", Shape::normal});
  LimitedEstimate broken{Estimate(std::numeric_limits<double>::quiet_NaN()), -1.0, 1.0};
  broken.estimate.add_term(0, 0.5);
  LimitedEstimate sound = between(-1.0, 1.0);
  sound.estimate.add_term(0, 0.5);
  EXPECT_FALSE(joint_probability(std::vector{broken}, sources).probability >= 0.0);
  EXPECT_FALSE(joint_probability(std::vector{sound, broken}, sources).probability >= 0.0);
}

TEST(JointProbability, RefusesWhatItCannotHold) {
  const std::vector<ErrorSource> sources(1, {"source", "", Shape::normal});
  const std::vector<LimitedEstimate> many(17, between(0.0, 1.0));
  test::expect_error([&] { joint_probability(many, sources); }, ErrorCategory::internal,
                     "a joint probability takes at most 16 estimates, not 17");
  LimitedEstimate stray = between(0.0, 1.0);
  stray.estimate.add_term(3, 1.0);
  test::expect_error(
      [&] {
        joint_probability(std::vector{stray, stray}, sources);
      },
      ErrorCategory::internal, "error term of source 3, but there are only 1");
}

}  // namespace
}  // namespace ohmwright
