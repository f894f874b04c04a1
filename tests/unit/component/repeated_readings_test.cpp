#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/component/repeated_readings.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

Evidence evidence_of(std::vector<double> repeats) {
  Reading reading{.measurand = "resistance", .observed = parse_observed("20 ohm", Dimension::resistance, {})};
  reading.repeats = std::move(repeats);
  return {testing::test_descriptor(), std::vector{reading}, MeterSet({testing::basic_meter("0.2 ohm")})};
}

TEST(RepeatedReadings, ScatterIsTheStandardDeviationOverTheMean) {
  const Evidence evidence = evidence_of({45.0});
  // GUM 4.2.2: s = 25/sqrt(2) about the mean of 32.5.
  EXPECT_NEAR(relative_scatter(evidence, evidence.readings()[0]), 25.0 / std::sqrt(2.0) / 32.5, 1e-12);
  EXPECT_TRUE(repeats_jump(evidence, evidence.readings()[0]));
}

TEST(RepeatedReadings, WhatStandsStillOrWasReadOnceDoesNotJump) {
  for (const std::vector<double>& repeats : {std::vector<double>{}, {20.0, 20.0}, {20.1, 19.9}}) {
    const Evidence evidence = evidence_of(repeats);
    EXPECT_FALSE(repeats_jump(evidence, evidence.readings()[0]));
  }
  const Evidence once = evidence_of({});
  EXPECT_LT(relative_scatter(once, once.readings()[0]), 0.0);
}

}  // namespace
}  // namespace ohmwright
