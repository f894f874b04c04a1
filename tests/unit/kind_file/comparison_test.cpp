#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "kind_fixture.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;
using ::testing::Pair;

/// What is said of each figure and rule, in the order in which it is said.
std::vector<std::pair<std::string, Outcome>> said(const Kind& kind, const std::string& original,
                                                  const std::string& candidate, const ComparisonContext& context = {}) {
  std::vector<std::pair<std::string, Outcome>> all;
  const auto first = part_of(kind, original);
  const auto second = part_of(kind, candidate);
  for (const EquivalenceFinding& finding : kind.compare(*first, *second, context))
    all.emplace_back(finding.text.id, finding.outcome);
  return all;
}

constexpr Outcome same = Outcome::within_limits;
constexpr Outcome other = Outcome::out_of_limits;
constexpr Outcome open_question = Outcome::undecided;
constexpr Outcome not_compared = Outcome::silent;

// The ends of 900 ohm ± 7 % are 837 and 963 ohm; those of the candidates are worked by hand alike.
TEST(PartComparison, HoldsTheLimitsOfGoodPartsAgainstEachOther) {
  const auto kind = coil();
  const std::string original = R"({"nominal": "900 ohm"})";
  EXPECT_THAT(said(*kind, original, original),
              ElementsAre(Pair("limits-alike", same), Pair("not-in-ratings", not_compared)));
  // 880 ohm ± 4 %: 845 to 915 ohm, all of them within.
  EXPECT_EQ(said(*kind, original, R"({"nominal": "880 ohm", "tolerance": "4 %"})").front().second, same);
  // 950 ohm ± 7 %: 884 to 1017 ohm, the middle within and the end not.
  EXPECT_THAT(said(*kind, original, R"({"nominal": "950 ohm"})").front(), Pair("limits-partly-alike", open_question));
  // 964 ohm: the middle lies outside.
  EXPECT_THAT(said(*kind, original, R"({"nominal": "964 ohm"})").front(), Pair("limits-differ", other));
  const auto first = part_of(*kind, original);
  const auto second = part_of(*kind, R"({"nominal": "950 ohm"})");
  std::map<std::string_view, double> told;
  const std::vector<EquivalenceFinding> findings = kind->compare(*first, *second, {});
  for (const FindingArgument& argument : findings.front().arguments)
    if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) told[argument.name] = quantity->value_in_si();
  EXPECT_NEAR(told["original_lower"], 837.0, 1e-9);
  EXPECT_NEAR(told["original_upper"], 963.0, 1e-9);
  EXPECT_NEAR(told["lower"], 883.5, 1e-9);
  EXPECT_NEAR(told["upper"], 1016.5, 1e-9);
}

// 450 W at 120 V and 1800 W at 240 V have 32 ohm both (V²/P), and draw the same at 120 V: by that they are not the
// same.
TEST(PartComparison, EqualOhmsAndAmperesOfOtherVoltsAreAnotherPart) {
  const auto kind = coil();
  const std::string original = R"({"nominal": "32 ohm", "voltage": "120 V", "power": "450 W"})";
  EXPECT_THAT(said(*kind, original, R"({"nominal": "32 ohm", "voltage": "240 V", "power": "1800 W"})"),
              ElementsAre(Pair("figure-differs", other), Pair("limits-alike", same), Pair("limits-alike", same),
                          Pair("not-in-ratings", not_compared)));
  // 125 V are within 5 % of 120 V; what 469 W at 125 V draw at 120 V is 3.60 A, 450 W at 120 V draw 3.75 A.
  EXPECT_THAT(said(*kind, original, R"({"nominal": "32 ohm", "voltage": "125 V", "power": "488 W"})").front(),
              Pair("figure-alike", same));
}

TEST(PartComparison, SaysWhatIsNotStated) {
  const auto kind = coil();
  const std::string full = R"({"nominal": "32 ohm", "voltage": "120 V", "power": "450 W", "opens": "13 degC"})";
  const std::string bare = R"({"nominal": "32 ohm"})";
  EXPECT_THAT(said(*kind, full, bare),
              ElementsAre(Pair("figure-unknown", open_question), Pair("limits-alike", same),
                          Pair("limits-unknown", open_question), Pair("limits-unknown", open_question),
                          Pair("not-in-ratings", not_compared)));
  // What the original leaves open asks nothing of the other.
  EXPECT_THAT(said(*kind, bare, full),
              ElementsAre(Pair("figure-not-asked", not_compared), Pair("limits-alike", same),
                          Pair("limits-unknown", not_compared), Pair("limits-unknown", not_compared),
                          Pair("not-in-ratings", not_compared)));
}

// The contact is closed below (opens − 10 K) and open above: within 2 K of that the places cannot be told apart.
TEST(PartComparison, AContactSwitchesWhereTheOriginalDoes) {
  const auto kind = coil();
  const auto of = [](const std::string& opens) { return R"({"nominal": "32 ohm", "opens": ")" + opens + "\"}"; };
  EXPECT_THAT(said(*kind, of("13 degC"), of("14.9 degC"))[1], Pair("switching-alike", same));
  EXPECT_THAT(said(*kind, of("13 degC"), of("15.1 degC"))[1], Pair("switching-differs", other));
  EXPECT_THAT(said(*kind, of("13 degC"), of("10.9 degC"))[1], Pair("switching-differs", other));
}

/// A figure that no rule uses: more of it may do as well, or may not; the file does not say.
TEST(PartComparison, LeavesAFigureThatNoRuleUsesOpenUnlessItIsTheSame) {
  const auto kind = coil({{R"({"id": "nominal",)", R"({"id": "most", "title": "most amperes", "dimension": "current",
     "required": false}, {"id": "nominal",)"}});
  const auto of = [](const std::string& most) { return R"({"nominal": "32 ohm", "most": ")" + most + "\"}"; };
  EXPECT_THAT(said(*kind, of("10 A"), of("10.4 A")).front(), Pair("figure-alike", same));
  EXPECT_THAT(said(*kind, of("10 A"), of("16 A")).front(), Pair("figure-other", open_question));
}

}  // namespace
}  // namespace ohmwright::kind_file
