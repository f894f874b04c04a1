#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include <ohmwright/verdict/caution.hpp>
#include <ohmwright/verdict/decision.hpp>
#include <ohmwright/verdict/what_would_decide.hpp>

namespace ohmwright {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

Estimate with_uncertainty(double value, double u) {
  Estimate estimate(value);
  estimate.add_term(0, u);
  return estimate;
}

TEST(Decide, AsksForTheWholeConfidenceOnEitherSide) {
  EXPECT_EQ(decide({0.95, 0.95}, 0.95), Outcome::within_limits);
  EXPECT_EQ(decide({0.9499999, 0.9499999}, 0.95), Outcome::undecided);
  EXPECT_EQ(decide({0.0500001, 0.0500001}, 0.95), Outcome::undecided);
  EXPECT_EQ(decide({0.0499999, 0.0499999}, 0.95), Outcome::out_of_limits);
}

TEST(Decide, CondemnsNothingForWantOfKnowledge) {
  // So wide a doubt that nothing could pass, and the value in the middle of its limits: P(within) = 2Φ(0.05) − 1.
  const Estimate estimate = with_uncertainty(0.0, 20.0);
  const std::vector<ErrorSource> sources(1);
  const Conformance conformance = conformance_of(estimate, sources, -1.0, 1.0);
  EXPECT_NEAR(conformance.within, 0.0398776, 1e-7);      // normal table, Φ(0.05) = 0.5199388
  EXPECT_NEAR(conformance.not_beyond, 0.5199388, 1e-7);  // likewise
  EXPECT_EQ(decide(conformance, 0.95), Outcome::undecided);
}

TEST(Conformance, OfAValueBeyondOneLimitIsWhatThatSideHolds) {
  const std::vector<ErrorSource> sources(1);
  const Conformance conformance = conformance_of(with_uncertainty(3.0, 1.0), sources, -1.0, 1.0);
  EXPECT_NEAR(conformance.within, 0.0227184, 1e-7);      // Φ(−2) − Φ(−4), normal table: 0.0227501 − 0.0000317
  EXPECT_NEAR(conformance.not_beyond, 0.0227501, 1e-7);  // Φ(−2)
}

TEST(Decide, NotANumberIsNeverAPassNorACondemnation) {
  EXPECT_EQ(decide({std::nan(""), std::nan("")}, 0.95), Outcome::undecided);
  EXPECT_EQ(decide_observed(std::nan(""), 0.95), Outcome::undecided);
}

TEST(DecideObserved, AnObservationThatGoodPartsHardlyShowCondemnsAndNoneEverPasses) {
  // A thermostat whose trip is N(12.8, 1.65) found closed at 16 ± 0.6 (1σ): P = 0.034 (reference table of hysteresis
  // logic, Φ by two independent programs).
  EXPECT_EQ(decide_observed(0.034180, 0.95), Outcome::out_of_limits);
  EXPECT_EQ(decide_observed(0.2, 0.95), Outcome::undecided);
  EXPECT_EQ(decide_observed(1.0, 0.95), Outcome::undecided);
}

TEST(Budget, IsSharesOfTheVarianceLargestFirst) {
  Estimate estimate(1.0);
  estimate.add_term(4, 3.0);
  estimate.add_term(2, -4.0);
  const std::vector<BudgetShare> budget = budget_of(estimate);
  ASSERT_EQ(budget.size(), 2U);
  EXPECT_EQ(budget[0].source, 2);
  EXPECT_DOUBLE_EQ(budget[0].share, 0.64);
  EXPECT_DOUBLE_EQ(budget[1].share, 0.36);
}

TEST(Budget, OfAnEstimateWithoutDoubtIsEmpty) { EXPECT_TRUE(budget_of(Estimate(1.0)).empty()); }

TEST(ProbabilityOfDecision, IsNearOneForAPartInTheMiddleThatIsReadWell) {
  EXPECT_GT(probability_of_decision(with_uncertainty(0.0, 0.2), -1.0, 1.0, {0.01}, 0.95), 0.9999);
}

TEST(ProbabilityOfDecision, IsZeroWhenNoReadingOfThatUncertaintyCanDecide) {
  // u so wide that no value reaches p = 0.95, and so near the middle that none falls to 0.05 either.
  EXPECT_LT(probability_of_decision(with_uncertainty(0.0, 0.1), -1.0, 1.0, {1.0}, 0.95), 0.02);
}

TEST(ProbabilityOfDecision, AtALimitWithANormalPriorMatchesTheClosedForm) {
  // One limit at 0, y = 0, u = 1, new u = 1: undecided between ±1.644854, spread √2:
  // 1 − (2Φ(1.644854/√2) − 1) = 0.24475 (normal table, two-sided).
  const double expected = std::erfc(1.6448536269514722 / std::sqrt(2.0) / std::sqrt(2.0));
  EXPECT_NEAR(probability_of_decision(with_uncertainty(0.0, 1.0), 0.0, infinity, {1.0}, 0.95), expected, 1e-9);
  EXPECT_NEAR(probability_of_decision(with_uncertainty(0.0, 1.0), -infinity, 0.0, {1.0}, 0.95), expected, 1e-9);
}

TEST(ProbabilityOfDecision, OfAReadingThatSharesTheDoubtIsSmallWhereTheValueLiesInTheMiddle) {
  // All of u = 20 stays with the next reading: it shows the same value again, and 20 against ± 1 decides nothing.
  EXPECT_LT(probability_of_decision(with_uncertainty(0.0, 20.0), -1.0, 1.0, {20.0, 20.0}, 0.95), 1e-9);
  EXPECT_GT(probability_of_decision(with_uncertainty(0.0, 20.0), -1.0, 1.0, {0.1}, 0.95), 0.97);
}

TEST(ProbabilityOfDecision, WithoutAnyLimitIsCertain) {
  EXPECT_EQ(probability_of_decision(with_uncertainty(0.0, 1.0), -infinity, infinity, {1.0}, 0.95), 1.0);
}

TEST(ProbabilityOfDecision, APerfectNewReadingAlwaysDecides) {
  EXPECT_NEAR(probability_of_decision(with_uncertainty(0.9, 0.3), -1.0, 1.0, {0.0}, 0.95), 1.0, 1e-9);
}

TEST(Outcomes, HaveNamesThatReadBack) {
  for (const Outcome outcome : {Outcome::within_limits, Outcome::out_of_limits, Outcome::undecided, Outcome::silent})
    EXPECT_EQ(outcome_named(name_of(outcome)), outcome);
  EXPECT_FALSE(outcome_named("fine"));
}

TEST(Cautions, EachHasAnIdentifierATextAndASource) {
  EXPECT_GE(framework_cautions().size(), 10U);
  for (const Caution& caution : framework_cautions()) {
    EXPECT_EQ(caution_named(caution.id), &caution);
    EXPECT_FALSE(caution.english.empty());
    EXPECT_FALSE(caution.brief.empty());
    EXPECT_LE(caution.brief.size(), 90U);
    EXPECT_FALSE(caution.source.empty());
  }
  EXPECT_EQ(caution_named("no-such-caution"), nullptr);
}

TEST(Cautions, EachStepOfTheTableNamesOnesThatThereAre) {
  for (const char* step :
       {"arrival", "read-dead", "read-live", "judge-a-log", "heat-that-goes-on", "replace-a-part", "forced-defrost"})
    EXPECT_FALSE(cautions_of_step(step).empty()) << step;
  for (const CautionedStep& step : cautioned_steps())
    for (const std::string_view id : step.cautions) EXPECT_NE(caution_named(id), nullptr) << step.id << ": " << id;
  EXPECT_TRUE(cautions_of_step("no-such-step").empty());
}

}  // namespace
}  // namespace ohmwright
