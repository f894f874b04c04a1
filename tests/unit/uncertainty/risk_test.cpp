#include <gtest/gtest.h>

#include <ohmwright/uncertainty/risk.hpp>

#include "expect_error.hpp"

namespace ohmwright {
namespace {

TEST(Risk, AcceptingEverythingLeavesAllRiskWithTheConsumer) {
  const GlobalRisk risk = global_risk({10.0, 1.0}, 0.1, {9.0, 11.0}, {});
  EXPECT_NEAR(risk.consumers_risk, 1.0 - risk.conforming, 1e-12);
  EXPECT_NEAR(risk.producers_risk, 0.0, 1e-12);
}

TEST(Risk, AcceptingNothingLeavesAllRiskWithTheProducer) {
  const GlobalRisk risk = global_risk({10.0, 1.0}, 0.1, {9.0, 11.0}, {1.0, 0.0});
  EXPECT_NEAR(risk.producers_risk, risk.conforming, 1e-12);
  EXPECT_NEAR(risk.consumers_risk, 0.0, 1e-12);
}

TEST(Risk, OneLimitIsEnough) {
  const GlobalRisk risk = global_risk({10.0, 1.0}, 0.5, {.upper = 11.0}, {.upper = 11.0});
  EXPECT_GT(risk.consumers_risk, 0.0);
  EXPECT_LT(risk.consumers_risk + risk.conforming, 1.0);
}

TEST(Risk, RefusesUncertaintiesThatAreNone) {
  test::expect_error([] { conformance_probability(1.0, 0.0, {}); }, ErrorCategory::internal,
                     "the standard uncertainty is 0.000000; it must be above 0");
  test::expect_error(
      [] {
        global_risk({1.0, -1.0}, 0.1, {}, {});
      },
      ErrorCategory::internal, "the standard deviation of the population is -1.000000; it must be above 0");
  test::expect_error([] { conformance_probability_of_capability(0.0, 0.5); }, ErrorCategory::internal,
                     "the measurement capability index is 0.000000; it must be above 0");
  test::expect_error([] { guard_band(-1.0, 0.05); }, ErrorCategory::internal,
                     "the standard uncertainty is -1.000000; it must be 0 or more");
}

}  // namespace
}  // namespace ohmwright
