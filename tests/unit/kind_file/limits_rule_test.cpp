// Rules on limits, against worked figures from outside.

#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "kind_fixture.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr Outcome passes = Outcome::within_limits;
constexpr Outcome condemns = Outcome::out_of_limits;
constexpr Outcome unsure = Outcome::undecided;
constexpr Outcome silent = Outcome::silent;

const char* const rated_82 = R"({"nominal": "82 ohm"})";

/// Rated 82 ohm ± 7 % at 25 °C, copper of k = 234.5; the meter shows 77.8 ohm, 0.9 % + 2 counts of 0.1 ohm, leads
/// 0.3 ± 0.05 ohm, the winding is at 31 ± 3 °C. Winding law R2 = R1 (k + t2)/(k + t1): IEC 60335-1, from memory.
/// Worked by hand: 75.748588 ohm at 25 °C, u 0.709255 ohm (GUM 5.1.2).
TEST(LimitsRule, MovesAWarmWindingToItsReference) {
  const auto kind = coil();
  const Judged got = judged(*kind, rated_82, {{"77.8 ohm", "31 degC +- 3 K"}}, meters("0.3 ohm +- 0.05 ohm", 2.0));
  const Finding& finding = got.of("winding");
  EXPECT_EQ(finding.outcome, unsure);
  EXPECT_EQ(got.text("winding"), "undecided");
  ASSERT_TRUE(finding.judged);
  EXPECT_NEAR(finding.judged->value(), 75.748588, 1e-6);
  EXPECT_NEAR(finding.judged->standard_uncertainty(), 0.709255, 1e-6);
  EXPECT_NEAR(finding.judged_lower, 76.26, 1e-9);
  EXPECT_NEAR(finding.judged_upper, 87.74, 1e-9);
  EXPECT_NEAR(finding.measured->value_in_si(), 77.5, 1e-9);
  EXPECT_NEAR(finding.limits.lower->value_in_si(), 76.26 * 265.5 / 259.5, 1e-9);
}

TEST(LimitsRule, ReadsASingleReadingWhereItWasTaken) {
  const auto kind = coil();
  const Judged got = judged(*kind, R"({"nominal": "82 ohm", "tolerance": {"value": "10 %", "source": "sheet"}})",
                            {{"84.2 ohm", "31 degC +- 1 K"}});
  EXPECT_EQ(got.outcome("winding"), passes);
  EXPECT_EQ(got.verdict.outcome, passes);
  const double nominal = 82.0 * 265.5 / 259.5;
  EXPECT_NEAR(got.argument("winding", "measured"), 84.0, 1e-9);
  EXPECT_NEAR(got.argument("winding", "nominal"), nominal, 1e-9);
  EXPECT_NEAR(got.argument("winding", "lower"), 0.9 * nominal, 1e-9);
  EXPECT_NEAR(got.argument("winding", "upper"), 1.1 * nominal, 1e-9);
  EXPECT_NEAR(got.argument("winding", "at"), 304.15, 1e-9);
  EXPECT_NEAR(got.argument("winding", "off_percent"), 100.0 * std::abs(84.0 / nominal - 1.0), 1e-9);
}

// An element of 240 V and 5.2 kW takes 21.666667 A (P = U I), and half of that at half its voltage.
TEST(LimitsRule, TakesTheNominalCurrentOfALoadAtItsLineVoltage) {
  const auto kind = coil();
  const char* const rated = R"({"nominal": "32 ohm", "voltage": "240 V", "power": "5.2 kW"})";
  const auto read = [&](const char* ampere, const char* volt) {
    return judged(*kind, rated, {{.value = ampere, .measurand = "current", .supply = Supply::live, .line = volt}});
  };
  const Judged got = read("21.7 A", "240 V +- 1 V");
  EXPECT_EQ(got.outcome("current"), passes);
  EXPECT_NEAR(got.of("current").limits.lower->value_in_si(), 0.9 * 21.666667, 1e-6);
  EXPECT_NEAR(got.of("current").limits.upper->value_in_si(), 1.05 * 21.666667, 1e-6);
  const Judged at_half = read("10.8 A", "120 V +- 1 V");
  EXPECT_EQ(at_half.outcome("current"), passes);
  EXPECT_NEAR(at_half.of("current").limits.upper->value_in_si(), 1.05 * 10.833333, 1e-6);
}

// R = V²/P: 240 V, 5.2 kW have 11.076923 ohm; 230 V, 2 kW 26.45 ohm.
TEST(LimitsRule, TakesTheNominalResistanceOfALoad) {
  const auto kind = coil({{R"("nominal": {"rating": "nominal"}, "tolerance")",
                           R"("nominal_of_load": {"voltage": {"rating": "voltage"}, "power": {"rating": "power"}}, )"
                           R"("tolerance")"}});
  const auto nominal = [&](const char* ratings) {
    const ConditionValue at{0, 298.15};
    return part_of(*kind, ratings)->expect(0, Situation({&at, 1}))->nominal.value_in_si();
  };
  EXPECT_NEAR(nominal(R"({"nominal": "1 ohm", "voltage": "240 V", "power": "5.2 kW"})"), 11.076923, 1e-6);
  EXPECT_NEAR(nominal(R"({"nominal": "1 ohm", "voltage": "230 V", "power": "2 kW"})"), 26.45, 1e-9);
}

// P = V²/R: on half its voltage a load of 5200 W has 1300 W.
TEST(LimitsRule, ScalesPowerWithTheSquareOfTheVoltage) {
  const auto kind =
      coil({{R"("dimension": "current", "unit": "A")", R"("dimension": "power", "unit": "W")"},
            {R"("nominal_of_load": {"voltage": {"rating": "voltage"}, "power": {"rating": "power"}})",
             R"("nominal": {"rating": "power"})"},
            {R"("reference": {"rating": "voltage"}})", R"("reference": {"rating": "voltage"}, "exponent": 2})"}});
  const auto part = part_of(*kind, R"({"nominal": "1 ohm", "voltage": "240 V", "power": "5.2 kW"})");
  const ConditionValue at{1, 120.0};
  EXPECT_NEAR(part->expect(2, Situation({&at, 1}))->nominal.value_in_si(), 1300.0, 1e-9);
}

TEST(LimitsRule, CondemnsBeyondItsLimits) {
  const auto kind = coil();
  const Judged high = judged(*kind, rated_82, {{"99 ohm", "25 degC"}});
  EXPECT_EQ(high.verdict.outcome, condemns);
  EXPECT_EQ(high.text("winding"), "high");
  EXPECT_THAT(high.advice(), ElementsAre("buy"));
  const Judged low = judged(*kind, rated_82, {{"60 ohm", "25 degC"}});
  EXPECT_EQ(low.verdict.outcome, condemns);
  EXPECT_EQ(low.text("winding"), "low");
}

TEST(LimitsRule, TakesAnUnstatedConnectionAsLeadOffWhereNoPathCanFlatterIt) {
  const auto kind = coil();
  const auto unstated = [&](const char* value) {
    return judged(*kind, rated_82, {{value, "25 degC", Connection::unstated}});
  };
  EXPECT_EQ(unstated("82 ohm").verdict.outcome, passes);
  EXPECT_EQ(unstated("82 ohm").text("winding"), "within-connection-unstated");
  EXPECT_EQ(unstated("99 ohm").verdict.outcome, condemns);
  EXPECT_EQ(unstated("60 ohm").verdict.outcome, unsure);
  EXPECT_EQ(unstated("60 ohm").text("winding"), "connection-unstated");
  EXPECT_THAT(unstated("60 ohm").advice(), ElementsAre("lift-a-lead"));
}

TEST(LimitsRule, NeverDecidesInCircuit) {
  const auto kind = coil();
  for (const char* value : {"1 ohm", "82 ohm", "900 ohm", "OL"}) {
    const Judged got = judged(*kind, rated_82, {{value, "25 degC", Connection::in_circuit}});
    EXPECT_EQ(got.verdict.outcome, unsure) << value;
    EXPECT_EQ(got.text("winding"), "in-circuit") << value;
    EXPECT_THAT(got.advice(), ElementsAre("lift-a-lead")) << value;
  }
}

TEST(LimitsRule, OverRangeCondemnsOnlyPastTheUpperLimit) {
  const auto kind = coil();
  const auto over = [&](const std::string& nominal) {
    return judged(*kind, R"({"nominal": ")" + nominal + "\"}", {{.value = "OL", .at = "25 degC", .range = "600 ohm"}});
  };
  EXPECT_EQ(over("82 ohm").outcome("winding"), condemns);
  EXPECT_EQ(over("82 ohm").text("winding"), "over-range");
  EXPECT_EQ(over("1 kohm").outcome("winding"), unsure);
  EXPECT_EQ(over("1 kohm").text("winding"), "range-too-low");
  EXPECT_THAT(over("1 kohm").advice(), ElementsAre("higher-range"));
}

/// A lower limit alone, as of insulation.
std::unique_ptr<Kind> at_least(const std::string& least) {
  return coil(
      {{R"("nominal": {"rating": "nominal"}, "tolerance": [{"rating": "tolerance"}, "7 %"])",
        R"("lower": ")" + least + '"'},
       {R"("temperature_coefficient": {"condition": "part_temperature", "per_kelvin": "0.38535645472061657 %", )"
        R"("reference": "25 degC"},)",
        ""},
       {"good: {measured} in {lower} to {upper}, {nominal} at {at}, {off_percent} % off", "good"},
       {R"("high": "high: {measured}",)", ""},
       {R"("says": ["high", "low"])", R"("says": ["low"])"},
       {R"({"type": "resistance", "between": ["a", "b"], "nominal_of": "winding"})",
        R"({"type": "closed", "between": ["a", "b"]})"},
       {R"("nominal_of": "winding", "times": 0.5, "tolerance": "20 %")", R"("value": "1 ohm")"}});
}
std::unique_ptr<Kind> two_megohms_at_least() { return at_least("2 Mohm"); }

// IEC 60364-6, 6.4.3.3 and EN 50699 (from memory): insulation is tested with 250 V or 500 V; an ohmmeter has a few.
TEST(LimitsRule, WithALowerLimitAloneAnOhmmeterProvesNoInsulation) {
  const auto kind = two_megohms_at_least();
  for (const Typed& typed : {Typed{.value = "OL", .range = "6 Mohm"}, Typed{.value = "5 Mohm"}}) {
    const Judged got = judged(*kind, "", {typed});
    EXPECT_EQ(got.outcome("winding"), unsure);
    EXPECT_EQ(got.text("winding"), "needs-tester");
    EXPECT_THAT(got.advice(), ElementsAre("prove-insulation"));
  }
  EXPECT_EQ(judged(*kind, "", {{.value = "OL", .range = "600 kohm"}}).outcome("winding"), unsure);
  EXPECT_EQ(judged(*kind, "", {{.value = "1 Mohm"}}).outcome("winding"), condemns);
  EXPECT_EQ(judged(*kind, "", {{.value = "OL", .connection = Connection::in_circuit}}).verdict.outcome, unsure);
}

// What has a least value alone may be broken: OL is no proof that its turns are not shorted.
TEST(LimitsRule, WithAFewOhmsAtLeastOverRangeProvesNothing) {
  const auto kind = at_least("20 ohm");
  EXPECT_EQ(judged(*kind, "", {{.value = "25 ohm"}}).outcome("winding"), passes);
  EXPECT_EQ(judged(*kind, "", {{.value = "OL", .range = "6 Mohm"}}).text("winding"), "needs-tester");
  EXPECT_TRUE(judged(*kind, "", {{.value = "OL", .range = "6 Mohm"}}).advice().empty());
}

TEST(LimitsRule, StaysSilentForWhatTheReadingsLack) {
  const auto kind = coil();
  const auto text = [&](const std::string& ratings, const Typed& typed) {
    const Judged got = judged(*kind, ratings, {typed});
    EXPECT_EQ(got.outcome("winding"), silent);
    return got.text("winding");
  };
  EXPECT_EQ(text(rated_82, {"82 ohm"}), "no-condition");
  EXPECT_EQ(text("", {"82 ohm", "25 degC"}), "no-figure");
  EXPECT_EQ(text(rated_82, {"82 ohm", "-232 degC"}), "out-of-reach");
  EXPECT_EQ(text(rated_82, {.value = "82 ohm", .at = "25 degC", .supply = Supply::live}), "live");
  EXPECT_EQ(text(rated_82, {.value = "82 ohm", .at = "25 degC", .moisture = Moisture::wet}), "wet");
  EXPECT_EQ(text(rated_82, {.value = "closed", .measurand = "contact"}), "not-read");
}

TEST(LimitsRule, WithoutFiguresAsksForTheRatings) {
  const auto kind = coil();
  EXPECT_THAT(judged(*kind, "", {{"82 ohm", "25 degC"}}).advice(), ElementsAre("say-ratings"));
}

TEST(LimitsRule, FusesReadingsWithWhatTheyShare) {
  const auto kind = coil();
  const Judged one = judged(*kind, rated_82, {{"82.0 ohm", "25 degC"}});
  const Judged two = judged(*kind, rated_82, {{"82.0 ohm", "25 degC"}, {"84.2 ohm", "31 degC"}});
  ASSERT_TRUE(two.of("winding").judged);
  const double alone = one.of("winding").judged->standard_uncertainty();
  const double together = two.of("winding").judged->standard_uncertainty();
  EXPECT_LT(together, alone);
  EXPECT_GT(together, alone / std::numbers::sqrt2);  // scale of the meter, leads and thermometer are common to both
  EXPECT_NEAR(two.argument("winding", "at"), 298.15, 1e-9);  // the reference stands for both
}

TEST(LimitsRule, ReadingsThatDisagreeProveNothing) {
  const auto kind = coil();
  const Judged got = judged(*kind, rated_82, {{"82 ohm", "25 degC"}, {"99 ohm", "25 degC"}});
  EXPECT_EQ(got.verdict.outcome, unsure);
  EXPECT_EQ(got.text("winding"), "readings-disagree");
  EXPECT_FALSE(got.of("winding").judged);
  EXPECT_THAT(got.advice(), ElementsAre("read-again"));
  EXPECT_EQ(judged(*kind, rated_82, {{"82 ohm", "25 degC"}, {"OL", "25 degC"}}).text("winding"), "readings-disagree");
}

TEST(LimitsRule, OneThatMayNotCondemnLeavesItUndecided) {
  const auto kind = coil({{R"("source": "made up",
      "limits")",
                           R"("source": "made up", "may_condemn": false, "limits")"}});
  const Judged got = judged(*kind, rated_82, {{"99 ohm", "25 degC"}});
  EXPECT_EQ(got.verdict.outcome, unsure);
  EXPECT_EQ(got.text("winding"), "high");
  EXPECT_EQ(kind->descriptor().rules[0].outcomes, can_pass | can_be_undecided);
}

/// Whatever else passes, as the README of kinds of files says.
TEST(LimitsRule, OneThatMayNotCondemnHoldsBackWhatElsePasses) {
  const auto kind = coil({{R"("measurand": "current", "source": "P = U I",)",
                           R"("measurand": "current", "source": "P = U I", "may_condemn": false,)"}});
  const std::string rated = R"({"nominal": "82 ohm", "power": "230 W", "voltage": "230 V"})";
  const auto draws = [](const char* ampere) {
    return Typed{.value = ampere, .measurand = "current", .supply = Supply::live, .line = "230 V"};
  };
  const Typed right{"82 ohm", "25 degC"};
  EXPECT_EQ(judged(*kind, rated, {right, draws("0.98 A")}).verdict.outcome, Outcome::within_limits);
  for (const char* wrong : {"3 A", "0.3 A"}) {
    const Judged got = judged(*kind, rated, {right, draws(wrong)});
    EXPECT_EQ(got.outcome("winding"), Outcome::within_limits);
    EXPECT_EQ(got.outcome("current"), unsure);
    EXPECT_EQ(got.verdict.outcome, unsure) << wrong;
  }
}

/// A rule of what is drawn past what is drawn when idle: 10 % of the idle current at most.
std::unique_ptr<Kind> with_a_difference() {
  return coil(
      {{R"("bare_number": true},)", R"("bare_number": true},
        {"id": "idle", "title": "Idle", "dimension": "current", "unit": "A"},
        {"id": "taken", "title": "Taken", "dimension": "current", "unit": "A"},)"},
       {R"("rules": [)", R"("rules": [{"id": "taken", "title": "Taken", "measurand": "taken", "source": "made up",
        "limits": {"upper": "0.5 A"}, "difference": {"from": "current", "less": "idle"},
        "texts": {"within": "{measured}", "high": "{measured}", "undecided": "{measured}"}},)"},
       {R"("procedures": [)", R"("procedures": [
        {"id": "idle", "title": "Idle", "measurand": "idle", "minutes": 1, "steps": ["Read."], "cautions": ["live-measurement"]},
        {"id": "taken", "title": "Taken", "measurand": "taken", "minutes": 1, "steps": ["Read."], "cautions": ["live-measurement"]},)"}});
}

TEST(LimitsRule, TakesADifferenceWhereTheMeasurandWasNotRead) {
  const auto kind = with_a_difference();
  const auto live = [](const char* measurand, const char* ampere) {
    return Typed{.value = ampere, .measurand = measurand, .supply = Supply::live};
  };
  const Judged much = judged(*kind, rated_82, {live("current", "3 A"), live("idle", "1 A")});
  EXPECT_EQ(much.text("taken"), "high");
  EXPECT_NEAR(much.argument("taken", "measured"), 2.0, 1e-9);
  EXPECT_EQ(judged(*kind, rated_82, {live("current", "1.1 A"), live("idle", "1 A")}).text("taken"), "within");
  EXPECT_EQ(judged(*kind, rated_82, {live("current", "3 A")}).text("taken"), "not-read");
  EXPECT_EQ(judged(*kind, rated_82, {live("current", "1 A"), live("idle", "3 A")}).text("taken"), "not-read");
  const Judged read = judged(*kind, rated_82, {live("current", "3 A"), live("idle", "1 A"), live("taken", "0.1 A")});
  EXPECT_NEAR(read.argument("taken", "measured"), 0.1, 1e-9) << "what was read counts";
}

TEST(LimitsRule, SaysWhatWouldDecideWithItsChance) {
  const auto kind = coil();
  const Judged got = judged(*kind, rated_82, {{"78.4 ohm", "28 degC +- 3 K"}}, meters("0.3 ohm +- 0.05 ohm", 2.0));
  EXPECT_EQ(got.outcome("winding"), unsure);
  ASSERT_FALSE(got.advice().empty());
  EXPECT_EQ(got.advice().front(), "better-part_temperature");
  const Advice& advice = got.verdict.advice.front();
  ASSERT_TRUE(advice.probability_decided);
  EXPECT_GT(*advice.probability_decided, 0.2);
  EXPECT_LT(*advice.probability_decided, 1.0);
  EXPECT_EQ(advice.arguments.size(), 2U);
}

TEST(LimitsRule, OfAPartThatPassesNothingIsAsked) {
  const auto kind = coil();
  EXPECT_THAT(judged(*kind, rated_82, {{"82 ohm", "25 degC"}}).advice(), IsEmpty());
}

}  // namespace
}  // namespace ohmwright::kind_file
