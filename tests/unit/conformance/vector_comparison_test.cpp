// What counts as a difference between a verdict and what its vector expects of the rules.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/conformance/vector_check.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// Differences between what the rule "first" found and what the vector expects of it.
std::vector<std::string> differences_of(const std::vector<Outcome>& found, const std::vector<Outcome>& expected) {
  VectorCase vector;
  for (const Outcome outcome : expected) vector.rules.push_back({"first", outcome});
  Verdict verdict;
  for (const Outcome outcome : found) {
    verdict.findings.emplace_back().rule = 0;
    verdict.findings.back().outcome = outcome;
  }
  return differences(vector, testing::test_descriptor(), verdict);
}

constexpr Outcome passes = Outcome::within_limits;
constexpr Outcome condemns = Outcome::out_of_limits;
constexpr Outcome unsure = Outcome::undecided;
constexpr Outcome silent = Outcome::silent;

TEST(VectorComparison, EveryFindingOfARuleHasTheOutcomeThatIsExpected) {
  EXPECT_THAT(differences_of({passes, passes}, {passes}), IsEmpty());
  EXPECT_THAT(differences_of({passes, condemns}, {passes}),
              ElementsAre("first: also out-of-limits, which is not expected"));
  EXPECT_THAT(
      differences_of({unsure, passes, unsure}, {passes}),
      ElementsAre("first: also undecided, which is not expected", "first: also undecided, which is not expected"));
}

TEST(VectorComparison, AFindingThatStaysSilentBesideItIsNoDifference) {
  EXPECT_THAT(differences_of({silent, passes}, {passes}), IsEmpty());
  EXPECT_THAT(differences_of({silent}, {silent}), IsEmpty());
  EXPECT_THAT(differences_of({silent, passes}, {silent}),
              ElementsAre("first: also within-limits, which is not expected"));
}

TEST(VectorComparison, AVectorMayListSeveralOutcomesOfARule) {
  EXPECT_THAT(differences_of({passes, condemns}, {passes, condemns}), IsEmpty());
  EXPECT_THAT(differences_of({passes, condemns, unsure}, {passes, condemns}),
              ElementsAre("first: also undecided, which is not expected"));
}

TEST(VectorComparison, WhatIsExpectedMustBeThere) {
  EXPECT_THAT(differences_of({unsure}, {passes}), ElementsAre("first: undecided, expected within-limits"));
  EXPECT_THAT(differences_of({}, {passes}), ElementsAre("first: no finding, expected within-limits"));
  EXPECT_THAT(differences_of({passes}, {passes, condemns}),
              ElementsAre("first: within-limits, expected out-of-limits"));
}

TEST(VectorComparison, RulesThatTheVectorDoesNotNameAreFree) {
  EXPECT_THAT(differences_of({passes, condemns}, {}), IsEmpty());
}

}  // namespace
}  // namespace ohmwright
