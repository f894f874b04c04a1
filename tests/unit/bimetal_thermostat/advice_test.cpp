#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "thermostat_fixture.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Not;

double target_of(const Findings& findings, AdviceIndex index) {
  return argument(advice_named(findings, index), "target") - 273.15;
}

TEST(Advice, NamesTheTemperatureThatWouldDecide) {
  const Findings open = judge(plain_ratings(), {{.value = "OL", .at = "22 degC +- 1 K"}});
  EXPECT_NEAR(target_of(open, chill_in_salted_ice), -11.0, 1e-9);
  const Findings closed = judge(plain_ratings(), {{.value = "closed", .at = "-18 degC +- 0.5 K"}});
  EXPECT_NEAR(target_of(closed, warm_by_hand), 16.5, 1e-9);
}

// What the advice promises: at that temperature the wrong state condemns.
TEST(Advice, ThatTemperatureDoesDecide) {
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {{.value = "OL", .at = "-11 degC +- 1 K"}}), state_at_temperature),
            Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(plain_ratings(), {{.value = "closed", .at = "17 degC +- 1 K"}}), state_at_temperature),
            Outcome::out_of_limits);
}

TEST(Advice, ForANormalSpreadTheTemperatureIsThatOfTheConfidence) {
  ThermostatRatings ratings = plain_ratings();
  ratings.opening.spread = Spread::normal;
  const Findings closed = judge(ratings, {{.value = "closed", .at = "5 degC +- 0 K"}});
  EXPECT_NEAR(target_of(closed, warm_by_hand), 13.0 + 1.6448536 * 1.5, 1e-6);  // 95 % of N(13, 1.5)
}

TEST(Advice, ChillsWithWhatIsColdEnough) {
  ThermostatRatings ratings = plain_ratings();
  const Typed open{.value = "OL", .at = "30 degC +- 0.5 K"};
  ratings.closing.nominal = celsius(6);
  EXPECT_THAT(advice_of(judge(ratings, {open})), ElementsAre("touch-the-probes", "chill-in-ice-water"));
  ratings.closing.nominal = celsius(-15);
  EXPECT_THAT(advice_of(judge(ratings, {open})), ElementsAre("touch-the-probes", "chill-in-freezer"));
}

TEST(Advice, WarmsWithWhatIsWarmEnough) {
  ThermostatRatings ratings = plain_ratings();
  const Typed closed{.value = "closed", .at = "-18 degC +- 0.5 K"};
  ratings.opening.nominal = celsius(60);
  EXPECT_THAT(advice_of(judge(ratings, {closed})), ElementsAre("warm-in-water"));
  ratings.opening.nominal = celsius(120);
  EXPECT_THAT(advice_of(judge(ratings, {closed})), ElementsAre("warm-on-bench"));
}

TEST(Advice, EveryUndecidedOfASingleReadingGetsSome) {
  for (const char* value : {"OL", "closed", "0.5 ohm", "50 ohm", "8 kohm"})
    for (const char* at : {"", "-9 degC", "5 degC", "15 degC", "22 degC"})
      for (const Connection connection : {Connection::unstated, Connection::lead_off, Connection::in_circuit}) {
        const std::vector<Typed> typed{{.value = value, .at = at, .connection = connection}};
        EXPECT_THAT(advice_of(judge(plain_ratings(), typed)), Not(IsEmpty())) << value << " at " << at;
        EXPECT_THAT(advice_of(judge(type_1_ratings(), typed)), Not(IsEmpty())) << value << " at " << at;
        EXPECT_THAT(advice_of(judge_unrated(typed)), Not(IsEmpty())) << value << " at " << at;
      }
}

TEST(Advice, FineStepsWouldDecideWhatAWideGapLeavesOpen) {
  const ThermostatRatings ratings = plain_ratings();
  const Findings findings = judge(&ratings, series({{'C', 12.5}, {'O', 16.5}, {'O', -4}, {'C', -5}}, 0.1));
  const Advice& narrow = advice_named(findings, narrow_opening);
  EXPECT_GT(*narrow.probability_decided, 0.8);
  EXPECT_NEAR(argument(narrow, "from"), celsius(12.5).kelvin(), 1e-9);
  EXPECT_NEAR(argument(narrow, "to"), celsius(16.5).kelvin(), 1e-9);
  EXPECT_THAT(advice_of(findings), Not(Contains("better-thermometer")));
}

TEST(Advice, ABetterThermometerWouldDecideWhatARoomThermometerLeavesOpen) {
  const ThermostatRatings ratings = plain_ratings();
  const Findings findings = judge(&ratings, series({{'C', 15.0}, {'O', 15.5}, {'O', -4}, {'C', -5}}, 1.5));
  const Advice& better = advice_named(findings, better_thermometer);
  EXPECT_GT(argument(better, "share_percent"), 90.0);
  EXPECT_GT(*better.probability_decided, 0.5);
  EXPECT_THAT(advice_of(findings), Not(Contains("narrow-opening")));
}

TEST(Advice, WatchesTheTripThatWasNotSeen) {
  const ThermostatRatings ratings = plain_ratings();
  const Findings findings = judge(&ratings, series({{'C', 12.2}, {'O', 13.4}}));
  EXPECT_THAT(advice_of(findings), ElementsAre("watch-it-close"));
  EXPECT_NEAR(argument(advice_named(findings, watch_it_close), "from"), celsius(1).kelvin(), 1e-9);
  EXPECT_NEAR(argument(advice_named(findings, watch_it_close), "to"), celsius(-11).kelvin(), 1e-9);
}

TEST(Advice, AfterAWeldedContactAsksForTheHeater) {
  EXPECT_THAT(advice_of(judge(plain_ratings(), {{.value = "closed", .at = "22 degC +- 1 K"}})),
              ElementsAre("before-buying-welded", "replacement"));
  ThermostatRatings ratings = ratings_with_link(4);
  ratings.rated_current = Current::from_value(10);
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "OL", .measurand = "link"}})),
              ElementsAre("touch-the-probes", "find-cause-of-link", "replacement-with-current", "replacement-link"));
}

TEST(Advice, RatingsThatStandForManyPartsAreNoneToBuyBy) {
  ThermostatRatings ratings = plain_ratings();
  ratings.opening.tolerance = ratings.opening.allowed = kelvin(11);
  ratings.closing.tolerance = ratings.closing.allowed = kelvin(14);
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "closed", .at = "40 degC +- 1 K"}})),
              Contains("replacement-by-stamp"));
}

TEST(Advice, ADecidedDropNeedsNoOhms) {
  const Typed poor{.value = "0.9 ohm", .at = "-18 degC +- 1 K"};
  const Typed drop{.value = "0.1 V", .supply = Supply::live, .measurand = "drop", .load = "3.75 A +- 0.1 A"};
  EXPECT_THAT(advice_of(judge(plain_ratings(), {poor})), Contains("measure-drop"));
  EXPECT_THAT(advice_of(judge(plain_ratings(), {poor, drop})), Not(Contains("measure-drop")));
}

TEST(Advice, NoHeaterIsRunThroughAContactOfSomeOhms) {
  // Ohm and Joule: 5 ohm before a heater of 32 ohm at 120 V turn (120/37)^2 x 5 = 53 W into heat in the contact.
  const Typed poor{.value = "5 ohm", .at = "-18 degC +- 1 K"};
  EXPECT_THAT(advice_of(judge(plain_ratings(), {poor})),
              AllOf(Contains("no-load-test"), Not(Contains("measure-drop"))));
}

TEST(Advice, ATemperatureInTheOtherUnitIsAskedForFirst) {
  // 35 degF are 1.7 degC, where a good one that opens at 13 degC may be closed.
  EXPECT_EQ(advice_of(judge(plain_ratings(), {{.value = "closed", .at = "35 degC +- 1 K"}})).at(0),
            "unit-was-fahrenheit");
  // 5 degF are -15 degC, and 5 degC would leave it open; -15 degC may well be what was meant.
  EXPECT_THAT(advice_of(judge(plain_ratings(), {{.value = "OL", .at = "-15 degC +- 1 K"}})),
              Not(Contains("unit-was-celsius")));
}

TEST(Advice, LiveOhmsAreToBeReadAgain) {
  EXPECT_THAT(advice_of(judge(plain_ratings(), {{.value = "OL", .at = "22 degC", .supply = Supply::live}})),
              Contains("read-unplugged"));
}

TEST(Advice, SaysThatAPartRightAtBothEndsSwitches) {
  const std::vector<Typed> ends{{.value = "closed", .at = "-18 degC +- 1 K"}, {.value = "OL", .at = "22 degC +- 1 K"}};
  EXPECT_THAT(advice_of(judge(plain_ratings(), ends)), ElementsAre("it-switches", "watch-it-open", "watch-it-close"));
  // No trip value is promised for a type 1 part: there is none to look for, and none that it was seen to miss.
  const Findings type_1 = judge(type_1_ratings(), ends);
  EXPECT_EQ(text_of(type_1, state_at_temperature), "right-at-both-ends-as-type-1");
  EXPECT_THAT(advice_of(type_1), ElementsAre("it-switches"));
}

TEST(Advice, APoorContactIsCleanedBeforeAnotherTemperatureOrALoadIsTried) {
  const Typed poor{.value = "12 ohm", .at = "-18 degC +- 1 K"};
  EXPECT_THAT(advice_of(judge(plain_ratings(), {poor})), ElementsAre("clean-and-read-again", "no-load-test"));
  EXPECT_THAT(advice_of(judge(plain_ratings(), {poor, {.value = "OL", .at = "22 degC +- 1 K"}})),
              ElementsAre("clean-and-read-again", "no-load-test"));
}

TEST(Advice, WhereAGoodOneIsOpenNoLoadIsTried) {
  // 32 ohm at room temperature: the heater beside it, and no closed contact that could carry a load.
  const Findings findings = judge(plain_ratings(), {{.value = "32 ohm", .at = "22 degC +- 1 K"}});
  EXPECT_EQ(text_of(findings, contact_resistance), "not-closed");
  EXPECT_THAT(advice_of(findings), ElementsAre("clean-and-read-again"));
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
