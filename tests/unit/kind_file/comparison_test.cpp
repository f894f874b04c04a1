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

/// A switch of two trip points as thermostats state them: closed below (closes − 6 K), open above (opens + 3 K), or
/// where the ratings say that it surely is.
std::unique_ptr<Kind> thermostat(const std::string& role = "ends-heating") {
  return coil({{R"("opens-water")", '"' + role + '"'},
               {R"({"id": "power",)", R"({"id": "closes", "title": "c", "dimension": "temperature", "required": false},
     {"id": "surely_open", "title": "o", "dimension": "temperature", "required": false}, {"id": "power",)"},
               {R"("closed_below": {"rating": "opens", "offset": "-10 K"}, "open_above": {"rating": "opens"}})",
                R"("closed_below": {"rating": "closes", "offset": "-6 K"}, "open_above": [{"rating": "surely_open"},
     {"rating": "opens", "offset": "3 K"}]})"}});
}

std::string trips(const std::string& opens, const std::string& closes, const std::string& surely_open = {}) {
  std::string more;
  if (!surely_open.empty()) more = R"(, "surely_open": ")" + surely_open + R"( degC")";
  return R"({"nominal": "32 ohm", "opens": ")" + opens + R"( degC", "closes": ")" + closes + R"( degC")" + more + "}";
}

// Each end by itself: that good ones switch within a span of the original is not enough.
TEST(PartComparison, ATripPointIsNeitherHigherNorLower) {
  const auto kind = thermostat();
  EXPECT_THAT(said(*kind, trips("60", "48"), trips("61.9", "46.1"))[1], Pair("switching-alike", same));
  EXPECT_THAT(said(*kind, trips("60", "48"), trips("51", "50"))[1], Pair("switching-elsewhere", other));
  EXPECT_THAT(said(*kind, trips("60", "48"), trips("60", "55"))[1], Pair("switching-elsewhere", other));
  EXPECT_THAT(said(*kind, trips("60", "48"), trips("60", "40"))[1], Pair("switching-differs", other));
}

// 63 °C is 60 °C and 3 K: it opens at 60 °C as surely as the original does at 70 °C.
TEST(PartComparison, ANarrowerOneOfTheSameTripPointsIsTheSame) {
  const auto kind = thermostat();
  EXPECT_THAT(said(*kind, trips("60", "48", "70"), trips("60", "48")),
              ElementsAre(Pair("figure-alike", same), Pair("limits-alike", same), Pair("switching-alike", same),
                          Pair("not-in-ratings", not_compared)));
}

TEST(PartComparison, ATripPointBehindAStatedEndIsComparedToo) {
  const auto kind = thermostat();
  EXPECT_THAT(said(*kind, trips("60", "48", "80"), trips("75", "48", "80")).front(), Pair("figure-differs", other));
  EXPECT_THROW(part_of(*kind, trips("150", "48", "63")), std::runtime_error) << "surely open before it opens";
}

// What protects against heat acts no later, not by a kelvin (IEC 60691: never of a higher temperature; from memory).
TEST(PartComparison, WhatProtectsHasNoSlackTowardsDanger) {
  const auto limit = thermostat("limits-heat");
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("120", "90"))[1], Pair("switching-alike", same));
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("119", "89"))[1], Pair("switching-alike", same));
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("120.5", "90"))[1], Pair("switching-differs", other));
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("122", "119"))[1], Pair("switching-differs", other));
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("92", "90"))[1], Pair("switching-elsewhere", other));
  EXPECT_THAT(said(*limit, trips("120", "90", "130"), trips("121", "90", "130")).front(),
              Pair("figure-differs", other));
}

// Where it resets it protects nothing: 2 K either way, as any point of switching.
TEST(PartComparison, WhereWhatProtectsResetsHasSlackOnBothSides) {
  const auto limit = thermostat("limits-heat");
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("120", "91.9"))[1], Pair("switching-alike", same));
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("120", "88.1"))[1], Pair("switching-alike", same));
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("120", "92.1"))[1], Pair("switching-elsewhere", other));
  EXPECT_THAT(said(*limit, trips("120", "90"), trips("120", "87.9"))[1], Pair("switching-differs", other));
}

TEST(PartComparison, AThermalLinkOfAHigherTemperatureIsAnotherPart) {
  const auto link =
      coil({{R"("open_above": {"rating": "opens"}})",
             R"("open_above": {"rating": "opens"}, "single_operation": true, "passes_on": "closed"})"},
            {R"("open-right": "open at {at}, has to be above {open_above}",)", ""},
            {R"("open at {at}, {chance_percent} %, has to be closed below {closed_below}")", R"("open for good")"}});
  const auto of = [](const std::string& opens) { return R"({"nominal": "32 ohm", "opens": ")" + opens + R"( degC"})"; };
  EXPECT_THAT(said(*link, of("141"), of("141"))[1], Pair("switching-alike", same));
  EXPECT_THAT(said(*link, of("141"), of("143"))[1], Pair("switching-differs", other));
  EXPECT_THAT(said(*link, of("141"), of("121"))[1].second, other);
}

/// The current along the line voltage from 100 V to 130 V, as one of two charts.
std::unique_ptr<Kind> of_current(const std::string& limits, const std::string& texts, const std::string& chart) {
  return coil(
      {{R"({"id": "power",)", R"({"id": "least", "title": "i", "dimension": "current", "required": false},
     {"id": "series", "title": "r", "dimension": "resistance", "required": false}, {"id": "power",)"},
       {R"({"nominal_of_load": {"voltage": {"rating": "voltage"}, "power": {"rating": "power"}}, "tolerance_below": "10 %", "tolerance_above": "5 %"},
      "proportional_to": {"condition": "line_voltage", "reference": {"rating": "voltage"}})",
        limits},
       {R"({"within": "good", "high": "high", "low": "low", "undecided": "who knows"})", texts},
       {R"("to": "50 degC"})", R"("to": "50 degC"})" + chart}});
}

const char* const along_the_line =
    R"(, {"measurand": "current", "condition": "line_voltage", "from": "100 V", "to": "130 V"})";

std::string drawing(const std::string& least, const std::string& series) {
  return R"({"nominal": "32 ohm", "least": ")" + least + R"( A", "series": ")" + series + R"( ohm"})";
}

// 1 A + U/10 ohm has 11 A to 14 A from 100 V to 130 V; -30 A + U/2.5 ohm has 10 A to 22 A.
TEST(PartComparison, OneLimitThatMovesIsComparedAlongTheWholeAxis) {
  const auto kind = of_current(R"({"upper": {"formula": "least + line_voltage / series"}})",
                               R"({"within": "good", "high": "high", "undecided": "who knows"})", along_the_line);
  EXPECT_THAT(said(*kind, drawing("1", "10"), drawing("-30", "2.5"))[1], Pair("most-differs", other));
  EXPECT_THAT(said(*kind, drawing("1", "10"), drawing("1", "10"))[1], Pair("most-alike", same));
}

// 1 A + U/10 ohm against -30 A + U/2.5 ohm: at 100 V 11 A and 10 A, at 130 V 14 A and 22 A; ± 10 %.
TEST(PartComparison, TheSpanLiesAlongTheFirstChartAlone) {
  const auto kind =
      of_current(R"({"nominal": {"formula": "least + line_voltage / series"}, "tolerance": "10 %"})",
                 R"({"within": "good", "high": "high", "low": "low", "undecided": "who knows"})", along_the_line);
  ComparisonContext cold;
  cold.from = AnyQuantity(Dimension::temperature, 273.15);
  cold.to = AnyQuantity(Dimension::temperature, 283.15);
  EXPECT_EQ(said(*kind, drawing("1", "10"), drawing("-30", "2.5"), cold),
            said(*kind, drawing("1", "10"), drawing("-30", "2.5")));
  const auto first = part_of(*kind, drawing("1", "10"));
  const auto second = part_of(*kind, drawing("-30", "2.5"));
  const std::vector<EquivalenceFinding> findings = kind->compare(*first, *second, cold);
  ASSERT_EQ(findings.at(1).text.id, "limits-differ");
  std::map<std::string_view, double> told;
  for (const FindingArgument& argument : findings[1].arguments)
    if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) told[argument.name] = quantity->value_in_si();
  EXPECT_GE(told["original_upper"], 12.1 - 1e-9) << "11 A + 10 %, at 100 V";
  EXPECT_LE(told["original_upper"], 15.4 + 1e-9) << "14 A + 10 %, at 130 V";
}

/// A coil whose contact carries so many amperes, which no rule uses.
std::unique_ptr<Kind> with_rated_amperes(const std::string& direction = {}) {
  return coil({{R"({"id": "nominal",)", R"({"id": "most", "title": "most amperes", "dimension": "current",
     "required": false)" + direction + R"(}, {"id": "nominal",)"}});
}
std::string amperes(const std::string& most) { return R"({"nominal": "32 ohm", "most": ")" + most + "\"}"; }

/// More of it may do as well, or may not; the file does not say.
TEST(PartComparison, LeavesAFigureThatNoRuleUsesOpenUnlessItIsTheSame) {
  const auto kind = with_rated_amperes();
  EXPECT_THAT(said(*kind, amperes("10 A"), amperes("10.4 A")).front(), Pair("figure-alike", same));
  EXPECT_THAT(said(*kind, amperes("10 A"), amperes("16 A")).front(), Pair("figure-other", open_question));
}

TEST(PartComparison, WhatAPartHasToStandMayBeMoreAndNeverLess) {
  const auto kind = with_rated_amperes(R"(, "stands_in": "at-least")");
  EXPECT_THAT(said(*kind, amperes("10 A"), amperes("10 A")).front(), Pair("figure-alike", same));
  EXPECT_THAT(said(*kind, amperes("10 A"), amperes("16 A")).front(), Pair("figure-enough", same));
  EXPECT_THAT(said(*kind, amperes("10 A"), amperes("9.9 A")).front(), Pair("figure-too-little", other));
  EXPECT_THAT(said(*kind, amperes("10 A"), R"({"nominal": "32 ohm"})").front(), Pair("figure-unknown", open_question));
  EXPECT_THAT(said(*kind, R"({"nominal": "32 ohm"})", amperes("6 A")).front(), Pair("figure-not-asked", not_compared));
}

TEST(PartComparison, WhatMayOnlyBeLessOrMustBeTheSameIsHeldToThat) {
  const auto least = with_rated_amperes(R"(, "stands_in": "at-most")");
  EXPECT_THAT(said(*least, amperes("10 A"), amperes("6 A")).front(), Pair("figure-little-enough", same));
  EXPECT_THAT(said(*least, amperes("10 A"), amperes("10.1 A")).front(), Pair("figure-too-much", other));
  const auto equal = with_rated_amperes(R"(, "stands_in": "equal")");
  EXPECT_THAT(said(*equal, amperes("10 A"), amperes("10.4 A")).front(), Pair("figure-alike", same));
  EXPECT_THAT(said(*equal, amperes("10 A"), amperes("16 A")).front(), Pair("figure-differs", other));
}

}  // namespace
}  // namespace ohmwright::kind_file
