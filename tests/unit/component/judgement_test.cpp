#include <gtest/gtest.h>

#include <ohmwright/component/judgement.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

using testing::basic_meter;
using testing::resistance_reading;
using testing::test_descriptor;

constexpr std::uint16_t first_rule = 0;
constexpr std::uint16_t second_rule = 1;
constexpr std::uint16_t remark = 2;

class Conclude : public ::testing::Test {
 protected:
  /// A continuous finding: y = 0, u = 1 (a source of its own), upper limit so that p is about `z` standard deviations.
  Finding& judged(std::uint16_t rule, Outcome outcome, SourceIndex source, double upper, double probability) {
    Finding& finding = findings_.add(rule, outcome, 0);
    finding.meaning = ProbabilityMeaning::within_limits;
    finding.probability = probability;
    finding.judged = Estimate(0.0);
    finding.judged->add_term(source, 1.0);
    finding.judged_lower = -1e9;
    finding.judged_upper = upper;
    return finding;
  }
  Verdict conclude_them() { return conclude(test_descriptor(), evidence_, JudgeSettings{}, std::move(findings_)); }

  std::vector<Reading> readings_{resistance_reading("10 ohm ± 1 ohm"), resistance_reading("11 ohm ± 1 ohm")};
  Evidence evidence_{test_descriptor(), readings_, MeterSet({basic_meter("0 ohm")})};
  Findings findings_;
};

TEST_F(Conclude, PassesOnlyWhenEveryEssentialRulePassed) {
  judged(first_rule, Outcome::within_limits, 1, 1e9, 1.0);
  EXPECT_EQ(conclude_them().outcome, Outcome::undecided);

  judged(first_rule, Outcome::within_limits, 1, 1e9, 1.0);
  judged(second_rule, Outcome::within_limits, 2, 1e9, 1.0);
  EXPECT_EQ(conclude_them().outcome, Outcome::within_limits);
}

TEST_F(Conclude, AnyRuleThatCondemnsCondemnsThePart) {
  judged(first_rule, Outcome::within_limits, 1, 1e9, 1.0);
  judged(second_rule, Outcome::within_limits, 2, 1e9, 1.0);
  findings_.add(remark, Outcome::out_of_limits, 0);
  EXPECT_EQ(conclude_them().outcome, Outcome::out_of_limits);
}

TEST_F(Conclude, TwoSureRulesMayBeTooLittleTogether) {
  // Rectangles of u = 1: P(Y ≤ 1.6) = (1.6 + √3)/(2√3) = 0.9619; two of them 0.9252, below 0.95.
  judged(first_rule, Outcome::within_limits, 1, 1.6, 0.9619);
  judged(second_rule, Outcome::within_limits, 2, 1.6, 0.9619);
  const Verdict verdict = conclude_them();
  ASSERT_TRUE(verdict.probability_within);
  EXPECT_NEAR(*verdict.probability_within, 0.961880215 * 0.961880215, 1e-6);
  EXPECT_EQ(verdict.outcome, Outcome::undecided);
}

TEST_F(Conclude, ASharedErrorIsNotCountedTwice) {
  judged(first_rule, Outcome::within_limits, 1, 1.6, 0.9619);
  judged(second_rule, Outcome::within_limits, 1, 1.6, 0.9619);
  const Verdict verdict = conclude_them();
  EXPECT_NEAR(*verdict.probability_within, 0.961880215, 1e-6);
  EXPECT_EQ(verdict.outcome, Outcome::within_limits);
}

TEST_F(Conclude, ARemarkDoesNotEnterTheJointProbability) {
  judged(first_rule, Outcome::within_limits, 1, 1e9, 1.0);
  judged(second_rule, Outcome::within_limits, 2, 1e9, 1.0);
  judged(remark, Outcome::undecided, 1, 0.0, 0.5);
  EXPECT_NEAR(*conclude_them().probability_within, 1.0, 1e-12);
}

TEST_F(Conclude, AKindWithoutEssentialRulesNeverPasses) {
  Descriptor descriptor = test_descriptor();
  for (RuleDescriptor& rule : descriptor.rules) rule.essential = false;
  judged(first_rule, Outcome::within_limits, 1, 1e9, 1.0);
  EXPECT_EQ(conclude(descriptor, evidence_, JudgeSettings{}, std::move(findings_)).outcome, Outcome::undecided);
}

TEST_F(Conclude, WithoutAContinuousRuleThereIsNoProbability) {
  findings_.add(first_rule, Outcome::silent, 0);
  const Verdict verdict = conclude_them();
  EXPECT_FALSE(verdict.probability_within);
  EXPECT_EQ(verdict.outcome, Outcome::undecided);
}

TEST_F(Conclude, TheBudgetIsThatOfTheLeastProbableFinding) {
  judged(first_rule, Outcome::within_limits, 1, 1e9, 1.0);
  judged(second_rule, Outcome::undecided, 2, 0.5, 0.6);
  const Verdict verdict = conclude_them();
  ASSERT_EQ(verdict.budget.size(), 1U);
  EXPECT_EQ(verdict.budget[0].source, 2);
}

}  // namespace
}  // namespace ohmwright
