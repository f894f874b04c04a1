#include "rules/fusion.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

Deviation deviation(double log, std::initializer_list<Term> terms, LogLimits limits = {-0.05, 0.05}, double t = 0) {
  Deviation made;
  made.temperature = celsius(t);
  made.log = Estimate(log);
  for (const Term& term : terms) made.log.add_term(term.source, term.standard_uncertainty);
  made.limits = limits;
  made.log_nominal = BetaCurve(beta_3977()).log_resistance(made.temperature);
  return made;
}

Fusion fused(const std::vector<Deviation>& all) { return fuse(all); }

TEST(Fusion, OfOneIsItself) {
  const Fusion fusion = fused({deviation(0.01, {{1, 0.02}})});
  EXPECT_EQ(fusion.log.value(), 0.01);
  EXPECT_EQ(fusion.limits.upper, 0.05);
}

// Inverse-variance weights 0.8 and 0.2, u = 0.02·0.01/√(0.02² + 0.01²): GUM, weighted mean of two independent values.
TEST(Fusion, OfIndependentReadingsIsTheWeightedMean) {
  const Fusion fusion = fused({deviation(0.01, {{1, 0.01}}), deviation(0.02, {{2, 0.02}})});
  EXPECT_NEAR(fusion.log.value(), 0.012, 1e-9);
  EXPECT_NEAR(fusion.log.standard_uncertainty(), 0.02 * 0.01 / std::hypot(0.02, 0.01), 1e-9);
}

TEST(Fusion, SharedErrorsDoNotAverageOut) {
  const Fusion fusion = fused({deviation(0.01, {{1, 0.02}, {2, 0.01}}), deviation(0.01, {{1, 0.02}, {3, 0.01}})});
  EXPECT_NEAR(fusion.log.standard_uncertainty(), std::hypot(0.02, 0.01 / std::sqrt(2.0)), 1e-9);
}

TEST(Fusion, TakesLimitsWithTheWeightsOfTheReadings) {
  const Fusion fusion = fused({deviation(0, {{1, 0.01}}, {-0.04, 0.06}), deviation(0, {{2, 0.02}}, {-0.09, 0.11})});
  EXPECT_NEAR(fusion.limits.lower, 0.8 * -0.04 + 0.2 * -0.09, 1e-9);
  EXPECT_NEAR(fusion.limits.upper, 0.8 * 0.06 + 0.2 * 0.11, 1e-9);
}

TEST(Fusion, GivesNoNegativeWeight) {
  // Strongly shared errors of different size: unconstrained least squares would subtract the second reading.
  const Fusion fusion = fused({deviation(0.01, {{1, 0.01}, {2, 0.001}}), deviation(0.03, {{1, 0.03}, {3, 0.001}})});
  EXPECT_EQ(fusion.weights[0], 1.0);
  EXPECT_EQ(fusion.weights[1], 0.0);
  EXPECT_EQ(fusion.log.value(), 0.01);
}

TEST(Fusion, SurvivesReadingsThatShareEverythingOrNothingIsKnownOf) {
  EXPECT_NEAR(fused({deviation(0.01, {{1, 0.02}}), deviation(0.03, {{1, 0.02}})}).log.value(), 0.02, 1e-9);
  EXPECT_NEAR(fused({deviation(0.01, {}), deviation(0.03, {})}).log.value(), 0.02, 1e-12);
}

TEST(Fusion, LeavesOutWhatWouldNotFitIntoAnEstimate) {
  std::vector<Deviation> all;
  for (SourceIndex i = 0; i < 4; ++i) {
    const auto first = static_cast<SourceIndex>(10 * i);
    Deviation made = deviation(0, {});
    for (SourceIndex k = 0; k < 7; ++k) made.log.add_term(static_cast<SourceIndex>(first + k), 0.01);
    EXPECT_EQ(fits(all, made), i < 3) << i;
    if (fits(all, made)) all.push_back(made);
  }
  EXPECT_NO_THROW(fuse(all));
}

TEST(Fusion, ManyReadingsAreJudgedWithoutTrouble) {
  const SensorRatings ratings = plain_ratings();
  std::vector<Typed> typed;
  for (int i = 0; i < 40; ++i) typed.push_back({.value = "33.9 kohm", .at = "0 degC +- 0.2 K"});
  EXPECT_EQ(outcome_of(judge(ratings, typed), resistance_at_temperature), Outcome::within_limits);
}

TEST(Disagreement, AllowsForTheSlopeBetweenTemperatures) {
  const SensorRatings ratings{plain_ratings().curve, Tolerance(ReferenceAndSlope{0.01, 0.02, celsius(25)}), {}, {}};
  const Deviation cold = deviation(0.03, {{1, 0.002}}, {}, -18);
  const Deviation warm = deviation(0.0, {{2, 0.002}}, {}, 25);
  EXPECT_EQ(disagreement(ratings, cold, warm), 0.0);  // 2 % of ln(94686/10000) = 0.045
  const Deviation also_cold = deviation(0.0, {{2, 0.002}}, {}, -18);
  EXPECT_NEAR(disagreement(ratings, cold, also_cold), 0.03 / std::hypot(0.002, 0.002), 1e-9);
}

TEST(Disagreement, OfReadingsWithoutDoubtIsInfinite) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_TRUE(std::isinf(disagreement(ratings, deviation(0.01, {}), deviation(0.0, {}))));
  EXPECT_EQ(disagreement(ratings, deviation(0.01, {}), deviation(0.01, {})), 0.0);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
