#include <limits>

#include <gtest/gtest.h>

#include <ohmwright/component/measured.hpp>
#include <ohmwright/component/reading_questions.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// One reading of 10 ohm, known to a rectangle of 1 ohm half-width.
Evidence ten_ohms() {
  const std::vector<Reading> readings{testing::resistance_reading("10 ohm ± 1 ohm")};
  return {testing::test_descriptor(), readings, MeterSet({testing::basic_meter("0 ohm")})};
}

Measured measured(const Evidence& evidence, double lower, double upper) {
  return measure(evidence.readings()[0].value, lower, upper, Dimension::resistance, evidence, {});
}

// JCGM 106:2012, 7: of a rectangle from 9 to 11 ohm half lies above 10 ohm, all of it below 12 ohm.
TEST(Measured, IsHeldAgainstItsLimits) {
  const Evidence evidence = ten_ohms();
  const Measured half = measured(evidence, 10.0, 20.0);
  EXPECT_NEAR(half.p.within, 0.5, 1e-9);
  EXPECT_EQ(half.outcome, Outcome::undecided);
  EXPECT_EQ(measured(evidence, 8.0, 12.0).outcome, Outcome::within_limits);
  const Measured low = measured(evidence, 12.0, 20.0);
  EXPECT_EQ(low.outcome, Outcome::out_of_limits);
  EXPECT_TRUE(low.is_low());
  EXPECT_FALSE(low.is_high());
}

TEST(Measured, IsToldWithItsLimitsAndJudgedWhereItSettles) {
  const Evidence evidence = ten_ohms();
  Findings findings;
  const Finding& settled = add_measured(findings, 3, 1, measured(evidence, 12.0, infinity));
  EXPECT_EQ(settled.outcome, Outcome::out_of_limits);
  EXPECT_TRUE(settled.judged);
  EXPECT_EQ(settled.judged_lower, 12.0);
  ASSERT_TRUE(settled.limits.lower);
  EXPECT_FALSE(settled.limits.upper);  // an infinite limit is none
  EXPECT_EQ(settled.arguments.size(), 2U);
  const Finding& not_settled = add_measured(findings, 3, 2, measured(evidence, 12.0, 20.0), false);
  EXPECT_EQ(not_settled.outcome, Outcome::undecided);
  EXPECT_FALSE(not_settled.judged);
  EXPECT_EQ(not_settled.arguments.size(), 3U);
}

TEST(Findings, SayWhatARuleHasSaid) {
  Findings findings;
  findings.add(3, Outcome::undecided, 7);
  findings.advise(5);
  EXPECT_TRUE(findings.has(3, Outcome::undecided));
  EXPECT_FALSE(findings.has(3, Outcome::within_limits));
  EXPECT_FALSE(findings.has(2, Outcome::undecided));
  EXPECT_TRUE(findings.has(Outcome::undecided));
  EXPECT_FALSE(findings.has(Outcome::out_of_limits));
  EXPECT_TRUE(findings.has_text(3, 7));
  EXPECT_FALSE(findings.has_text(3, 6));
  EXPECT_TRUE(findings.advised(5));
  EXPECT_FALSE(findings.advised(4));
}

TEST(Readings, AreAskedAll) {
  const Evidence evidence = ten_ohms();
  EXPECT_TRUE(any_of(evidence, [](const PreparedReading& r) { return r.displayed == 10.0; }));
  EXPECT_FALSE(any_of(evidence, is_live));
}

}  // namespace
}  // namespace ohmwright
