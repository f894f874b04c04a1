// What a plugin may not find: the numbers of each case are worked out by hand from the rectangle of the model's source.

#include <limits>

#include <gtest/gtest.h>

#include <ohmwright/plugin/finding_check.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>

#include "../../plugins/support/no_readings.hpp"

namespace ohmwright {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();
// Y = 0 with a rectangle of u = 1, half-width √3: P(Y ≤ x) = (x + √3)/(2√3).
constexpr double p_up_to_1_6 = 0.9618802153517006;  // passes at c = 0.95
constexpr double p_up_to_1_5 = 0.9330127018922193;  // decides nothing

constexpr std::uint16_t essential_rule = 0;
constexpr std::uint16_t remark = 1;

const Descriptor& descriptor() {
  static const Descriptor two_rules = [] {
    constexpr std::uint8_t anything = can_pass | can_condemn | can_be_undecided;
    Descriptor d;
    d.rules = {{"winding", "Winding", true, anything, "made up for this test", {{"text", "it reads"}}},
               {"remark", "Remark", false, anything, "made up for this test", {{"text", "it reads"}}}};
    d.advice = {{"again", "read again"}};
    return d;
  }();
  return two_rules;
}

/// What is said of the findings that `find` puts down; empty when they can be used.
template <class Find>
std::string misuse_when(Find find, double confidence = 0.95) {
  Findings findings;
  find(findings);
  return misuse_of_findings(findings, descriptor(), fixture::no_readings(descriptor()), {confidence}).value_or("");
}

/// A finding whose estimate is 0 with a rectangle of u = 1, held against −∞ … `upper`.
Finding judged(std::uint16_t rule, Outcome outcome, double upper, double probability) {
  Finding finding;
  finding.rule = rule;
  finding.outcome = outcome;
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = probability;
  finding.judged = Estimate(0.0);
  finding.judged->add_term(Evidence::model_source, 1.0);
  finding.judged_lower = -infinity;
  finding.judged_upper = upper;
  return finding;
}

Finding bare(std::uint16_t rule, Outcome outcome, ProbabilityMeaning meaning, double probability) {
  Finding finding;
  finding.rule = rule;
  finding.outcome = outcome;
  finding.meaning = meaning;
  finding.probability = probability;
  return finding;
}

std::string misuse_of(const Finding& finding, double confidence = 0.95) {
  return misuse_when([&](Findings& findings) { findings.findings().push_back(finding); }, confidence);
}

/// What is said of a silent finding, otherwise right, after `spoil`.
template <class Spoil>
std::string misuse_after(Spoil spoil) {
  Finding finding;
  finding.rule = remark;
  spoil(finding);
  return misuse_of(finding);
}

const std::string contradicted = "its rule \"winding\" gave an outcome that its own numbers contradict";
const std::string no_number = "its rule \"remark\" gave something that is not a number";

TEST(FindingCheck, AnOutcomeFollowsFromTheEstimateBesideIt) {
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::within_limits, 1.6, p_up_to_1_6)), "");
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::within_limits, 1.5, p_up_to_1_5)), contradicted);
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::out_of_limits, -1.6, 1.0 - p_up_to_1_6)), "");
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::out_of_limits, -1.5, 1.0 - p_up_to_1_5)), contradicted);
  // Both limits in doubt: p is 0.2/(2√3) = 0.0577, but neither side holds 0.9 (docs/arithmetic.md).
  Finding both = judged(essential_rule, Outcome::out_of_limits, 0.1, 0.2 / (2.0 * 1.7320508075688772));
  both.judged_lower = -0.1;
  EXPECT_EQ(misuse_of(both, 0.9), contradicted);
}

TEST(FindingCheck, TheConfidenceAskedForDecides) {
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::within_limits, 1.5, p_up_to_1_5), 0.9), "");
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::within_limits, 1.6, p_up_to_1_6), 0.99), contradicted);
}

TEST(FindingCheck, ARuleMayBeMoreCautiousThanItsNumbers) {
  for (const Outcome outcome : {Outcome::undecided, Outcome::silent}) {
    EXPECT_EQ(misuse_of(judged(essential_rule, outcome, 10.0, 1.0)), "");
    EXPECT_EQ(misuse_of(judged(essential_rule, outcome, -10.0, 0.0)), "");
    EXPECT_EQ(misuse_of(bare(essential_rule, outcome, ProbabilityMeaning::within_limits, 1.0)), "");
    EXPECT_EQ(misuse_of(bare(essential_rule, outcome, ProbabilityMeaning::observed_if_within, 0.0)), "");
  }
}

TEST(FindingCheck, AProbabilityIsThatOfTheEstimateBesideIt) {
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::within_limits, 1.6, p_up_to_1_6 + 0.9e-6)), "");
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::within_limits, 1.6, p_up_to_1_6 + 1.1e-6)),
            "its rule \"winding\" gave a probability that is not that of its estimate");
  EXPECT_EQ(misuse_of(judged(essential_rule, Outcome::undecided, 1.6, 0.5)),
            "its rule \"winding\" gave a probability that is not that of its estimate");
}

TEST(FindingCheck, WithoutAnEstimateTheProbabilityItselfDecides) {
  const auto within = ProbabilityMeaning::within_limits;
  EXPECT_EQ(misuse_of(bare(remark, Outcome::within_limits, within, 0.95)), "");
  EXPECT_EQ(misuse_of(bare(remark, Outcome::within_limits, within, 0.94)),
            "its rule \"remark\" gave an outcome that its own numbers contradict");
  EXPECT_EQ(misuse_of(bare(remark, Outcome::out_of_limits, within, 0.04)), "");
  EXPECT_EQ(misuse_of(bare(remark, Outcome::out_of_limits, within, 0.06)),
            "its rule \"remark\" gave an outcome that its own numbers contradict");
}

TEST(FindingCheck, AnEssentialRuleThatPassesByAProbabilityBringsItsEstimate) {
  EXPECT_EQ(misuse_of(bare(essential_rule, Outcome::within_limits, ProbabilityMeaning::within_limits, 0.99)),
            "its rule \"winding\" is essential and passes without the estimate that it judged");
  EXPECT_EQ(misuse_of(bare(essential_rule, Outcome::within_limits, ProbabilityMeaning::none, 0.0)), "");
}

TEST(FindingCheck, WhatIsSeenOfAGoodPartNeverPassesIt) {
  const auto observed = ProbabilityMeaning::observed_if_within;
  EXPECT_EQ(misuse_of(bare(remark, Outcome::within_limits, observed, 0.99)),
            "its rule \"remark\" passes by a probability that can only condemn");
  EXPECT_EQ(misuse_of(bare(remark, Outcome::out_of_limits, observed, 0.04)), "");
  EXPECT_EQ(misuse_of(bare(remark, Outcome::out_of_limits, observed, 0.06)),
            "its rule \"remark\" gave an outcome that its own numbers contradict");
}

TEST(FindingCheck, AnEstimateIsWhole) {
  Finding unknown_source = judged(essential_rule, Outcome::undecided, 1.6, p_up_to_1_6);
  unknown_source.judged->add_term(1, 1.0);  // without readings there is but the model's source
  EXPECT_EQ(misuse_of(unknown_source), "its rule \"winding\" gave an estimate with an error source that is not there");

  Finding turned_round = judged(essential_rule, Outcome::undecided, 1.6, 0.0);
  turned_round.judged_lower = 2.0;
  EXPECT_EQ(misuse_of(turned_round), "its rule \"winding\" gave a lower limit above the upper one");

  Finding endless = judged(essential_rule, Outcome::undecided, 1.6, p_up_to_1_6);
  endless.judged->shift(infinity);
  EXPECT_EQ(misuse_of(endless), "its rule \"winding\" gave an estimate that is not finite");
}

TEST(FindingCheck, NothingIsNotANumber) {
  EXPECT_EQ(misuse_after([](Finding& f) { f.measured = AnyQuantity(Dimension::resistance, nan); }), no_number);
  EXPECT_EQ(misuse_after([](Finding& f) { f.limits.lower = AnyQuantity(Dimension::resistance, nan); }), no_number);
  EXPECT_EQ(misuse_after([](Finding& f) { f.limits.upper = AnyQuantity(Dimension::resistance, nan); }), no_number);
  EXPECT_EQ(misuse_after([](Finding& f) { f.measured_uncertainty = nan; }), no_number);
  EXPECT_EQ(misuse_after([](Finding& f) { f.arguments.push_back({"off", nan}); }), no_number);
  EXPECT_EQ(misuse_after([](Finding& f) {
              f.arguments.push_back({"off", AnyQuantity(Dimension::temperature, nan)});
            }),
            no_number);
  EXPECT_EQ(misuse_after([](Finding& f) { f.judged = Estimate(nan); }), no_number);
  EXPECT_EQ(misuse_after([](Finding& f) {
              f.judged = Estimate(1.0);
              f.judged->add_term(Evidence::model_source, nan);
            }),
            no_number);
  EXPECT_EQ(misuse_after([](Finding& f) {
              f.judged = Estimate(1.0);
              f.judged_upper = nan;
            }),
            no_number);
  EXPECT_EQ(misuse_after([](Finding& f) {
              f.meaning = ProbabilityMeaning::within_limits;
              f.probability = nan;
            }),
            no_number);
  EXPECT_EQ(misuse_after([](Finding& f) {
              f.arguments.push_back({"path", infinity});
            }),
            "its rule \"remark\" gave a value without end");
  EXPECT_EQ(misuse_after([](Finding& f) { f.measured = AnyQuantity(Dimension::resistance, infinity); }),
            "its rule \"remark\" gave a value without end");
}

TEST(FindingCheck, FiguresArePossible) {
  EXPECT_EQ(misuse_after([](Finding& f) { f.measured_uncertainty = -0.1; }),
            "its rule \"remark\" gave an uncertainty below zero");
  EXPECT_EQ(misuse_after([](Finding& f) { f.measured_uncertainty = 0.0; }), "");
  EXPECT_EQ(misuse_after([](Finding& f) {
              f.arguments.push_back({"", 1.0});
            }),
            "its rule \"remark\" gave an argument without a name");
  EXPECT_EQ(misuse_of(bare(remark, Outcome::undecided, ProbabilityMeaning::within_limits, 1.5)),
            "its rule \"remark\" gave a probability outside 0 to 1");
}

TEST(FindingCheck, AdviceIsHeldToTheSame) {
  const auto advised = [](auto spoil) {
    return misuse_when([&](Findings& findings) {
      findings.add(remark, Outcome::silent, 0);
      spoil(findings.advise(0));
    });
  };
  EXPECT_EQ(advised([](Advice& advice) { advice.probability_decided = 0.5; }), "");
  EXPECT_EQ(advised([](Advice& advice) { advice.probability_decided = 1.5; }),
            "its advice \"again\" gave a probability outside 0 to 1");
  EXPECT_EQ(advised([](Advice& advice) { advice.probability_decided = nan; }),
            "its advice \"again\" gave something that is not a number");
  EXPECT_EQ(advised([](Advice& advice) {
              advice.arguments.push_back({"share", nan});
            }),
            "its advice \"again\" gave something that is not a number");
  EXPECT_EQ(advised([](Advice& advice) {
              advice.arguments.push_back({"", 1.0});
            }),
            "its advice \"again\" gave an argument without a name");
}

TEST(FindingCheck, OneVerdictTakesSoManyEstimates) {
  const auto so_many = [](std::size_t count, std::uint16_t rule) {
    return misuse_when([&](Findings& findings) {
      for (std::size_t i = 0; i < count; ++i)
        findings.findings().push_back(judged(rule, Outcome::undecided, 1.6, p_up_to_1_6));
    });
  };
  EXPECT_EQ(so_many(max_joint_estimates, essential_rule), "");
  EXPECT_EQ(so_many(max_joint_estimates + 1, essential_rule),
            "its essential rules gave 17 estimates; one verdict takes at most 16");
  EXPECT_EQ(so_many(max_joint_estimates + 1, remark), "");
}

}  // namespace
}  // namespace ohmwright
