#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/component/reading_questions.hpp>

#include "thermostat_fixture.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

TEST(ContactSeenIn, Ohms) {
  EXPECT_EQ(contact_seen(-0.1), ContactSeen::closed);
  EXPECT_EQ(contact_seen(10.0), ContactSeen::closed);
  EXPECT_EQ(contact_seen(10.1), ContactSeen::poor);
  EXPECT_EQ(contact_seen(1e3), ContactSeen::leaking);
  EXPECT_EQ(contact_seen(1e6), ContactSeen::open);
  EXPECT_EQ(contact_seen(std::numeric_limits<double>::quiet_NaN()), ContactSeen::nothing);
}

TEST(ContactSeenOf, AKindMayPutTheEndsElsewhereAndKnowNoLeak) {
  const ContactEndsInOhms ends{1.0, 50.0, 50.0};
  EXPECT_EQ(contact_seen(1.0, ends), ContactSeen::closed);
  EXPECT_EQ(contact_seen(1.1, ends), ContactSeen::poor);
  EXPECT_EQ(contact_seen(50.0, ends), ContactSeen::open);
  PreparedReading over;
  over.shown = Shown::over_range;
  over.range_full_scale = 60.0;
  EXPECT_EQ(contact_seen(over, ends), ContactSeen::open);
  EXPECT_EQ(contact_seen(over), ContactSeen::nothing);
}

// ---- ohms of the contact

Typed cold(std::string_view value) { return {.value = value, .at = "-18 degC +- 1 K"}; }

TEST(ContactResistance, PassesWhereTheMeterCanTell) {
  EXPECT_EQ(text_of(judge(plain_ratings(), {cold("0.05 ohm")}, fine_meter()), contact_resistance), "low-enough");
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {cold("0.05 ohm")}, fine_meter()), contact_resistance),
            Outcome::within_limits);
  EXPECT_EQ(text_of(judge(plain_ratings(), {cold("0 ohm")}, fine_meter()), contact_resistance), "nothing-beyond-leads");
}

TEST(ContactResistance, NeverCondemns) {
  for (const char* value : {"0.3 ohm", "0.9 ohm", "5 ohm", "50 ohm", "900 ohm"})
    EXPECT_EQ(outcome_of(judge(plain_ratings(), {cold(value)}), contact_resistance), Outcome::undecided) << value;
  EXPECT_EQ(text_of(judge(plain_ratings(), {cold("0.3 ohm")}), contact_resistance), "too-coarse");
  EXPECT_EQ(text_of(judge(plain_ratings(), {cold("5 ohm")}), contact_resistance), "too-high");
}

TEST(ContactResistance, DoesNotPassWithoutAWordOnTheLeads) {
  Typed unstated = cold("0.05 ohm");
  unstated.connection = Connection::unstated;
  EXPECT_EQ(text_of(judge(plain_ratings(), {unstated}, fine_meter()), contact_resistance), "connection-unstated");
}

TEST(ContactResistance, SaysWhyItStaysSilent) {
  ThermostatRatings ratings = plain_ratings();
  EXPECT_EQ(text_of(judge(ratings, {cold("closed")}), contact_resistance), "no-ohms");
  EXPECT_EQ(text_of(judge(ratings, {cold("8 kohm")}), contact_resistance), "no-ohms");
  ratings.contact_resistance.reset();
  EXPECT_EQ(text_of(judge(ratings, {cold("0.3 ohm")}), contact_resistance), "no-limit");
}

// ---- the drop under load

Typed drop(std::string_view volts, std::string_view load) {
  return {
      .value = volts, .connection = Connection::unstated, .supply = Supply::live, .measurand = "drop", .load = load};
}

TEST(VoltageDrop, DecidesAgainstTheLimitAtThatCurrent) {
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {drop("0.19 V", "3.75 A +- 0.1 A")}), drop_under_load),
            Outcome::within_limits);
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {drop("1.9 V", "3.75 A +- 0.1 A")}), drop_under_load),
            Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {drop("0.75 V", "3.75 A +- 0.1 A")}), drop_under_load),
            Outcome::undecided);
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {drop("-1.9 V", "3.75 A +- 0.1 A")}), drop_under_load),
            Outcome::out_of_limits)
      << "a minus is swapped probes";
}

TEST(VoltageDrop, TheWholeSupplyWithoutCurrentCondemnsNothing) {
  const Findings findings = judge(plain_ratings(), {drop("120 V", "0 A +- 0.1 A")});
  EXPECT_EQ(outcome_of(findings, drop_under_load), Outcome::undecided);
  EXPECT_EQ(text_of(findings, drop_under_load), "open-under-supply");
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {drop("120 V", "0.1 A +- 0.1 A")}), drop_under_load), Outcome::undecided);
}

TEST(VoltageDrop, SaysWhyItDoesNotJudge) {
  EXPECT_EQ(text_of(judge(plain_ratings(), {cold("closed")}), drop_under_load), "no-drop");
  EXPECT_EQ(text_of(judge(plain_ratings(), {drop("1.9 V", "")}), drop_under_load), "no-current");
  Typed dead = drop("0 V", "3 A");
  dead.supply = Supply::unplugged;
  EXPECT_EQ(text_of(judge(plain_ratings(), {dead}), drop_under_load), "not-live");
  EXPECT_EQ(text_of(judge_unrated({drop("1.9 V", "3 A")}), drop_under_load), "no-limit");
}

// ---- in circuit

Typed in_the_circuit(std::string_view value, std::string_view at, Supply supply = Supply::proved_dead) {
  return {.value = value, .at = at, .connection = Connection::in_circuit, .supply = supply};
}

TEST(InCircuit, IsNeverJudgedClosed) {
  for (const char* value : {"closed", "0.1 ohm", "beep"}) {
    for (const char* at : {"22 degC +- 1 K", "-18 degC +- 1 K"}) {
      const Findings findings = judge(plain_ratings(), {in_the_circuit(value, at)});
      EXPECT_EQ(text_of(findings, in_circuit), "clears-nothing");
      EXPECT_EQ(outcome_of(findings, in_circuit), Outcome::undecided);
      EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::silent);
      EXPECT_EQ(outcome_of(findings, stuck), Outcome::silent);
    }
  }
}

TEST(InCircuit, NotOverRangeDoesNotMeanClosed) {
  for (const char* value : {"8.032 kohm", "37.9 ohm"})
    EXPECT_EQ(text_of(judge(plain_ratings(), {in_the_circuit(value, "22 degC +- 1 K")}), in_circuit), "path-beside");
}

TEST(InCircuit, OpenIsOpen) {
  EXPECT_EQ(text_of(judge(plain_ratings(), {in_the_circuit("OL", "22 degC +- 1 K")}), in_circuit), "open-there");
  EXPECT_EQ(text_of(judge_unrated({in_the_circuit("OL", "22 degC +- 1 K")}), in_circuit), "not-comparable");
}

TEST(InCircuit, OpenColdCondemnsOnceProved) {
  Typed swapped = in_the_circuit("OL", "-18 degC +- 1 K");
  swapped.measurand = "state_swapped";
  const Typed once = in_the_circuit("OL", "-18 degC +- 1 K");
  const Typed unplugged = in_the_circuit("OL", "-18 degC +- 1 K", Supply::unplugged);
  EXPECT_EQ(text_of(judge(plain_ratings(), {once}), in_circuit), "high-not-proved");
  EXPECT_EQ(text_of(judge(plain_ratings(), {unplugged, swapped}), in_circuit), "high-not-proved");
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {once, swapped}), in_circuit), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(type_1_ratings(), {once, swapped}), in_circuit), Outcome::undecided);
}

// "Good alone" in the three ways a contact can be: closed with a lead off, closed and nobody said how, carrying its
// load.
TEST(InCircuit, WhatIsClosedAloneIsNotCondemned) {
  const Typed open = in_the_circuit("OL", "-18 degC +- 1 K");
  Typed swapped = open;
  swapped.measurand = "state_swapped";
  const Findings alone = judge(plain_ratings(), {cold("closed"), open, swapped});
  EXPECT_EQ(text_of(alone, in_circuit), "right-alone");
  EXPECT_EQ(outcome_of(alone, in_circuit), Outcome::undecided);
  EXPECT_THAT(advice_of(alone), ::testing::Not(::testing::Contains("lift-a-lead")));
  EXPECT_THAT(advice_of(alone), ::testing::Not(::testing::Contains("prove-dead-and-swap")));
  EXPECT_THAT(advice_of(alone), ::testing::Contains("warm-by-hand"));  // what is closed cold is to be seen to open
  Typed unstated = cold("closed");
  unstated.connection = Connection::unstated;
  const Findings perhaps = judge(plain_ratings(), {unstated, open, swapped});
  EXPECT_EQ(text_of(perhaps, in_circuit), "right-where-unstated");
  EXPECT_TRUE(finding_of(perhaps, in_circuit).holds_back);
  EXPECT_EQ(text_of(judge(plain_ratings(), {drop("5 mV", "3 A"), open, swapped}), in_circuit), "right-alone");
}

TEST(InCircuit, SaysWhyItStaysSilent) {
  EXPECT_EQ(text_of(judge(plain_ratings(), {cold("closed")}), in_circuit), "no-in-circuit");
  EXPECT_EQ(text_of(judge(plain_ratings(), {in_the_circuit("OL", "22 degC", Supply::live)}), in_circuit), "only-live");
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
