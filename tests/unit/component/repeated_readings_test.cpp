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

// Of two the values come back as they were read; of more only that no one lies farther out is known.
TEST(RepeatedReadings, TwoThatContradictAreNamed) {
  const Evidence two = evidence_of({0.0});
  const auto apart = far_apart(two, two.readings()[0]);
  ASSERT_TRUE(apart);
  EXPECT_EQ(apart->count, 2U);
  EXPECT_DOUBLE_EQ(apart->lowest, 0.0);
  EXPECT_DOUBLE_EQ(apart->highest, 20.0);
  const Evidence opposite = evidence_of({-20.0});
  ASSERT_TRUE(far_apart(opposite, opposite.readings()[0]));
  EXPECT_DOUBLE_EQ(far_apart(opposite, opposite.readings()[0])->lowest, -20.0);
  const Evidence three = evidence_of({20.0, -20.0});
  ASSERT_TRUE(far_apart(three, three.readings()[0]));
  EXPECT_LE(far_apart(three, three.readings()[0])->lowest, -20.0);
  EXPECT_EQ(far_apart(three, three.readings()[0])->count, 3U);
  for (const std::vector<double>& repeats : {std::vector<double>{}, {20.0}, {21.9}, {18.1}}) {
    const Evidence evidence = evidence_of(repeats);
    EXPECT_FALSE(far_apart(evidence, evidence.readings()[0]));
  }
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
