#include <array>
#include <cstdint>

#include <gtest/gtest.h>

#include <ohmwright/verdict/rule_outcomes.hpp>

namespace ohmwright {
namespace {

constexpr std::array all_outcomes{Outcome::within_limits, Outcome::out_of_limits, Outcome::undecided, Outcome::silent};

TEST(RuleOutcomes, SaysWhatTheFindingsSay) {
  Findings findings;
  findings.add(0, Outcome::within_limits, 0);
  findings.add(1, Outcome::undecided, 0);
  findings.add(1, Outcome::silent, 1);
  findings.add(31, Outcome::silent, 0);
  findings.add(32, Outcome::undecided, 0);  // past what is gathered
  findings.add(700, Outcome::silent, 0);
  const RuleOutcomes said(findings);
  constexpr std::array<std::uint16_t, 8> rules{0, 1, 2, 31, 32, 33, 700, 701};
  for (const std::uint16_t rule : rules)
    for (const Outcome outcome : all_outcomes) EXPECT_EQ(said.has(rule, outcome), findings.has(rule, outcome)) << rule;
  for (const Outcome outcome : all_outcomes) EXPECT_EQ(said.has(outcome), findings.has(outcome));
}

TEST(RuleOutcomes, HoldsBackAsAnyFindingDoes) {
  Findings findings;
  EXPECT_FALSE(RuleOutcomes(findings).holds_back());
  findings.add(0, Outcome::within_limits, 0);
  EXPECT_FALSE(RuleOutcomes(findings).holds_back());
  findings.add(1, Outcome::undecided, 0).holds_back = true;
  EXPECT_TRUE(RuleOutcomes(findings).holds_back());
}

}  // namespace
}  // namespace ohmwright
