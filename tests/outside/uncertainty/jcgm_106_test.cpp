// JCGM 106:2012: conformance, guard bands and inspection risks. The printed figures (0.92; about 1 % and 7 %) are given
// from memory; the unrounded ones were computed twice with independent programs.
#include <gtest/gtest.h>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/uncertainty/risk.hpp>

namespace {

using ohmwright::conformance_probability;

TEST(Jcgm106, ReferenceDiodeHasOneUpperLimit) {
  EXPECT_NEAR(conformance_probability(-5.47, 0.05, {.upper = -5.40}), 0.919243341, 1e-9);
}

TEST(Jcgm106, GlobalRiskOfPrecisionResistors) {
  const auto risk = ohmwright::global_risk({1500.0, 0.12}, 0.04, {1499.80, 1500.20}, {1499.82, 1500.18});
  EXPECT_NEAR(risk.conforming, 0.904419295, 1e-7);
  EXPECT_NEAR(risk.consumers_risk, 0.009878292, 1e-7);
  EXPECT_NEAR(risk.producers_risk, 0.069026510, 1e-7);
}

TEST(Jcgm106, WithoutGuardBandTheConsumerBearsMore) {
  const auto risk = ohmwright::global_risk({1500.0, 0.12}, 0.04, {1499.80, 1500.20}, {1499.80, 1500.20});
  EXPECT_NEAR(risk.consumers_risk, 0.018942207, 1e-8);
  EXPECT_NEAR(risk.producers_risk, 0.037207800, 1e-8);
}

TEST(Jcgm106, CapabilityForm) {
  EXPECT_NEAR(ohmwright::conformance_probability_of_capability(1.0, 0.9), 0.655262633, 1e-8);
  EXPECT_NEAR(ohmwright::conformance_probability_of_capability(2.0, 0.95), 0.655421742, 1e-8);
}

TEST(Jcgm106, GuardBandAgainstRiskAtTheAcceptanceLimit) {
  EXPECT_NEAR(ohmwright::false_acceptance_at_limit(0.5), 0.158655, 5e-7);
  EXPECT_NEAR(ohmwright::false_acceptance_at_limit(0.83), 0.048457, 5e-7);
  EXPECT_NEAR(ohmwright::false_acceptance_at_limit(1.0), 0.022750, 5e-7);
  EXPECT_NEAR(ohmwright::false_acceptance_at_limit(1.5), 0.001350, 5e-7);
  EXPECT_NEAR(ohmwright::guard_band(1.0, 0.05), 1.644854, 5e-7);
}

TEST(Jcgm106, PopulationShiftsAMarginalReading) {
  const auto posterior = ohmwright::posterior_of_reading({1500.0, 0.12}, 1500.19, 0.04);
  EXPECT_NEAR(posterior.mean, 1500.171, 1e-9);
  EXPECT_NEAR(posterior.standard_deviation, 0.037947, 5e-7);
  EXPECT_NEAR(conformance_probability(posterior.mean, posterior.standard_deviation, {1499.8, 1500.2}), 0.777631, 5e-7);
}

}  // namespace
