#include <gtest/gtest.h>

#include "thermostat_fixture.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

Typed read(std::string_view value, std::string_view at) { return {.value = value, .at = at}; }

TEST(StateRule, OpenAtRoomTemperatureNeverCondemns) {
  for (const char* at : {"10 degC +- 1 K", "16 degC +- 1 K", "22 degC +- 1 K", "22 degC +- 5 K", "40 degC +- 1 K"})
    EXPECT_EQ(outcome_of(judge(plain_ratings(), {read("OL", at)}), state_at_temperature), Outcome::undecided) << at;
  EXPECT_EQ(text_of(judge(plain_ratings(), {read("OL", "22 degC +- 1 K")}), state_at_temperature), "open-as-it-should");
}

TEST(StateRule, ClosedPastTheHighestOpeningTemperatureCondemns) {
  const Findings findings = judge(plain_ratings(), {read("closed", "22 degC +- 1 K")});
  EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::out_of_limits);
  EXPECT_EQ(text_of(findings, state_at_temperature), "closed-too-warm");
  EXPECT_EQ(finding_of(findings, state_at_temperature).meaning, ProbabilityMeaning::observed_if_within);
  EXPECT_EQ(finding_of(findings, state_at_temperature).limits.upper, AnyQuantity(celsius(16)));
}

TEST(StateRule, OpenBelowTheLowestClosingTemperatureCondemns) {
  const Findings findings = judge(plain_ratings(), {read("OL", "-18 degC +- 1 K")});
  EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::out_of_limits);
  EXPECT_EQ(text_of(findings, state_at_temperature), "open-too-cold");
  EXPECT_EQ(finding_of(findings, state_at_temperature).limits.lower, AnyQuantity(celsius(-10)));
}

TEST(StateRule, BetweenTheTwoBothStatesAreGood) {
  for (const char* at : {"-9 degC +- 0.5 K", "0 degC +- 0.5 K", "5 degC +- 0.5 K", "12 degC +- 0.5 K"}) {
    EXPECT_EQ(text_of(judge(plain_ratings(), {read("closed", at)}), state_at_temperature), "closed-and-either-is-good");
    EXPECT_EQ(text_of(judge(plain_ratings(), {read("OL", at)}), state_at_temperature), "open-and-either-is-good");
  }
}

// Rectangle of ±1 K: P(T ≤ 16 °C) at 16.9 °C is 0.05, at 16.8 °C 0.1.
TEST(StateRule, DecidesAtOneMinusTheConfidence) {
  const auto outcome = [](const char* at) {
    return outcome_of(judge(plain_ratings(), {read("closed", at)}), state_at_temperature);
  };
  EXPECT_EQ(outcome("16.8 degC +- 1 K"), Outcome::undecided);
  EXPECT_EQ(outcome("16.91 degC +- 1 K"), Outcome::out_of_limits);
  EXPECT_NEAR(
      finding_of(judge(plain_ratings(), {read("closed", "16.8 degC +- 1 K")}), state_at_temperature).probability, 0.1,
      1e-12);
}

TEST(StateRule, NoGoodPartWithinItsLimitsIsCondemnedAtAKnownTemperature) {
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {read("closed", "15.99 degC +- 0 K")}), state_at_temperature),
            Outcome::undecided);
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {read("closed", "16.01 degC +- 0 K")}), state_at_temperature),
            Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {read("OL", "-9.99 degC +- 0 K")}), state_at_temperature),
            Outcome::undecided);
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {read("OL", "-10.01 degC +- 0 K")}), state_at_temperature),
            Outcome::out_of_limits);
}

TEST(StateRule, WithoutAWordOnTheLeadsClosedCondemnsNothingAndOpenDoes) {
  Typed closed = read("closed", "22 degC +- 1 K");
  closed.connection = Connection::unstated;
  const Findings findings = judge(plain_ratings(), {closed});
  EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::undecided);
  EXPECT_EQ(text_of(findings, state_at_temperature), "closed-too-warm-connection-unstated");
  Typed open = read("OL", "-18 degC +- 1 K");
  open.connection = Connection::unstated;
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {open}), state_at_temperature), Outcome::out_of_limits);
}

TEST(StateRule, AnOpenReadingShowsThatNoPathLiesBesideIt) {
  Typed open = read("OL", "19 degC +- 1 K");
  Typed closed = read("closed", "25 degC +- 1 K");
  open.connection = closed.connection = Connection::unstated;
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {open, closed}), state_at_temperature), Outcome::out_of_limits);
}

TEST(StateRule, OfAPairNeitherThermostatNorLinkIsNamedAlone) {
  EXPECT_EQ(text_of(judge(ratings_with_link(2), {read("OL", "-18 degC +- 1 K")}), state_at_temperature),
            "open-too-cold-pair");
}

TEST(StateRule, OpenInTheColdNamesWhatElseMayReadSoWhereNothingWasSaidOfIt) {
  Typed open = read("OL", "-18 degC +- 1 K");
  open.connection = Connection::unstated;
  open.supply = Supply::unstated;
  EXPECT_EQ(text_of(judge(plain_ratings(), {open}), state_at_temperature), "open-too-cold-connection-unstated");
  open.supply = Supply::proved_dead;
  EXPECT_EQ(text_of(judge(plain_ratings(), {open}), state_at_temperature), "open-too-cold");
}

TEST(StateRule, ShowsTheReadingThatTellsMost) {
  const Findings findings = judge(plain_ratings(), {read("closed", "-18 degC +- 1 K"), read("closed", "22 degC +- 1 K"),
                                                    read("closed", "5 degC +- 1 K")});
  EXPECT_NEAR(argument(finding_of(findings, state_at_temperature), "temperature"), celsius(22).kelvin(), 1e-9);
}

TEST(StateRule, RightAtBothEndsIsSaid) {
  const Findings findings = judge(plain_ratings(), {read("closed", "-18 degC +- 1 K"), read("OL", "22 degC +- 1 K")});
  EXPECT_EQ(text_of(findings, state_at_temperature), "right-at-both-ends");
  EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::undecided);
}

TEST(StateRule, OhmsAreStates) {
  EXPECT_EQ(text_of(judge(plain_ratings(), {read("0.1 ohm", "-18 degC +- 1 K")}), state_at_temperature),
            "closed-as-it-should");
  EXPECT_EQ(text_of(judge(plain_ratings(), {read("8 kohm", "22 degC +- 1 K")}), state_at_temperature),
            "leaks-where-open");
  EXPECT_EQ(text_of(judge(plain_ratings(), {read("5 Mohm", "22 degC +- 1 K")}), state_at_temperature),
            "open-as-it-should");
  EXPECT_EQ(text_of(judge(plain_ratings(), {read("20 ohm", "22 degC +- 1 K")}), state_at_temperature), "poor-contact");
  // Water beside it can only lower the ohms: 8 kohm in the freezer is no closed contact.
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {read("8 kohm", "-18 degC +- 1 K")}), state_at_temperature),
            Outcome::out_of_limits);
}

TEST(StateRule, ReadingsThatATripPointExplainsAreLeftToItsRule) {
  const ThermostatRatings ratings = plain_ratings();
  const Findings findings = judge(&ratings, series({{'C', 16.5}, {'C', 17.1}, {'O', 17.7}}));
  EXPECT_EQ(text_of(findings, state_at_temperature), "trip-points-tell-more");
  EXPECT_EQ(outcome_of(findings, opening_point), Outcome::out_of_limits);
}

TEST(StateRule, TypeOneIsNeverCondemnedForItsTripPoint) {
  EXPECT_EQ(text_of(judge(type_1_ratings(), {read("closed", "22 degC +- 1 K")}), state_at_temperature),
            "closed-as-type-1");
  EXPECT_EQ(text_of(judge(type_1_ratings(), {read("OL", "-18 degC +- 1 K")}), state_at_temperature), "open-as-type-1");
  EXPECT_EQ(outcome_of(judge(type_1_ratings(), {read("OL", "-18 degC +- 1 K")}), state_at_temperature),
            Outcome::undecided);
}

TEST(StateRule, SaysWhyItDoesNotJudge) {
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "OL"}}), state_at_temperature), "no-temperature");
  EXPECT_EQ(text_of(judge_unrated({read("OL", "22 degC +- 1 K")}), state_at_temperature), "no-ratings");
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "OL", .measurand = "link"}}), state_at_temperature), "no-state");
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "OL", .at = "22 degC", .connection = Connection::in_circuit}}),
                    state_at_temperature),
            "only-in-circuit");
  EXPECT_EQ(
      text_of(judge(plain_ratings(), {{.value = "OL", .at = "22 degC", .supply = Supply::live}}), state_at_temperature),
      "only-live");
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
