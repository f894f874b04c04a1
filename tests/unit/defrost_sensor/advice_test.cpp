#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Not;

const Advice& advice_named(const Findings& findings, AdviceIndex index) {
  for (const Advice& advice : findings.advice())
    if (advice.text == index) return advice;
  throw std::logic_error("no such advice");
}

TEST(Advice, IceWaterWouldDecideWhatARoomThermometerLeavesOpen) {
  const SensorRatings ratings = plain_ratings();
  const Findings findings = judge(ratings, {{.value = "11.2 kohm", .at = "23 degC +- 3 K"}});
  ASSERT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::undecided);
  const Advice& ice = advice_named(findings, ice_point);
  // The truth is wide open (u = 0.079 in ln R against limits of ±0.05); a new reading with u = 0.0089 decides most of
  // it.
  EXPECT_GT(*ice.probability_decided, 0.6);
  EXPECT_LT(*ice.probability_decided, 1.0);
  EXPECT_EQ(ice.arguments[1].name, "share_percent");
  EXPECT_GT(std::get<double>(ice.arguments[1].value), 98.0);
}

// By hand (normal distribution function of Python's statistics module): u = 0.0789 now (meter 0.0068, temperature 3
// K/√3 · 4.535 %/K = 0.0786), new u = √(0.0068² + (0.2/√3·5.330 %)²) = 0.00916; passing span ±(0.05 - 1.645·0.00916),
// condemning past ±(0.05 + 1.645·0.00916) (limits ln 0.95, ln 1.05): 0.3261 passed, 0.4342 condemned.
TEST(Advice, ChanceAtTheIcePointIsThatOfNormalTheory) {
  const SensorRatings ratings = plain_ratings();
  const Findings findings = judge(ratings, {{.value = "11.2 kohm", .at = "23 degC +- 3 K"}}, no_leads_meter());
  EXPECT_NEAR(*advice_named(findings, ice_point).probability_decided, 0.7604, 5e-3);
}

TEST(Advice, ABetterMeterIsNotRecommendedWhereTheThermometerIsTheDoubt) {
  const SensorRatings ratings = plain_ratings();
  const Findings findings = judge(ratings, {{.value = "11.2 kohm", .at = "23 degC +- 3 K"}});
  EXPECT_THAT(advice_of(findings), Not(Contains("better-meter")));
}

TEST(Advice, ABetterMeterIsRecommendedAtTheIcePoint) {
  const SensorRatings ratings = ratings_with(plain_ratings().curve, 0.02);
  const Findings findings = judge(ratings, {{.value = "33.5 kohm", .at = "0 degC +- 0.2 K"}});
  ASSERT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::undecided);
  EXPECT_THAT(advice_of(findings), ElementsAre("better-meter"));
}

TEST(Advice, APassSendsTheSearchOn) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "33.9 kohm", .at = "0 degC +- 0.2 K"}})),
              ElementsAre("look-elsewhere"));
}

TEST(Advice, CondemnedAtOneTemperatureAsksForASecond) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "20 kohm", .at = "0 degC +- 0.2 K"}})),
              ElementsAre("second-temperature-room", "replace-alike"));
}

TEST(Advice, MissingTemperatureIsAskedFor) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "11 kohm"}})), ElementsAre("state-temperature"));
}

TEST(Advice, InCircuitAsksForALiftedLeadAndForTheProof) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings,
                              {{.value = "33.9 kohm", .at = "0 degC +- 0.2 K", .connection = Connection::in_circuit}})),
              ElementsAre("lift-a-lead", "prove-dead-and-swap"));
}

TEST(Advice, LiveOhmsAreToBeReadAgainUnplugged) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "33.9 kohm", .at = "0 degC +- 0.2 K", .supply = Supply::live}})),
              ElementsAre("read-unplugged"));
}

TEST(Advice, AModelThatIsTheDoubtSendsToRoomTemperature) {
  const SensorRatings ratings{std::make_shared<BetaCurve>(beta_3977()), Tolerance(OfResistance{0.05}), {}, {}};
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "96.36 kohm", .at = "-20 degC +- 0.2 K"}})), Contains("room-point"));
}

TEST(Advice, OpenOrShortedFirstTheProbesThenTheSensorsOwnLeads) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "OL"}})),
              ElementsAre("touch-the-probes", "read-at-the-sensor", "replace-alike"));
  // A broken test lead or a flat battery shows OL, and never a short.
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "0.3 ohm"}})),
              ElementsAre("clips-touch", "read-at-the-sensor", "replace-alike"));
}

TEST(Advice, AnOverRangeBesideAValueAsksToMoveTheLeadAndKeepsThePartFromPassing) {
  const SensorRatings ratings = plain_ratings();
  const std::vector<Typed> typed{{.value = "33.9 kohm", .at = "0 degC +- 0.2 K"}, {.value = "OL"}};
  EXPECT_THAT(advice_of(judge(ratings, typed)), ElementsAre("move-the-lead"));
  EXPECT_EQ(verdict_on(&ratings, typed).outcome, Outcome::undecided);
}

TEST(Advice, JumpingRepeatsAreNotAveraged) {
  const SensorRatings ratings = plain_ratings();
  const std::vector<Typed> typed{{.value = "33.1 kohm", .at = "0 degC +- 0.2 K", .repeats = {"28 kohm", "36 kohm"}}};
  EXPECT_THAT(advice_of(judge(ratings, typed)), ElementsAre("move-the-lead"));
  EXPECT_EQ(text_of(judge(ratings, typed), resistance_at_temperature), "only-jumping");
  EXPECT_EQ(verdict_on(&ratings, typed).outcome, Outcome::undecided);
}

TEST(Advice, AWetReadingThatFellWithItsConnectorUnsaidKeepsThePartFromPassing) {
  const SensorRatings ratings = plain_ratings();
  const std::vector<Typed> typed{
      {.value = "22 kohm", .at = "0 degC +- 0.2 K", .connection = Connection::unstated, .moisture = Moisture::wet},
      {.value = "33.9 kohm", .at = "0 degC +- 0.2 K", .connection = Connection::unstated}};
  EXPECT_EQ(verdict_on(&ratings, typed).outcome, Outcome::undecided);
  EXPECT_THAT(advice_of(judge(ratings, typed)), ElementsAre("wet-connector"));
}

TEST(Advice, AConnectorThatWasSaidToBeOffIsNotAskedFor) {
  const SensorRatings ratings = plain_ratings();
  const std::vector<Typed> higher_when_wet{{.value = "12.4 kohm", .at = "20 degC +- 0.3 K", .moisture = Moisture::wet},
                                           {.value = "9.2 kohm", .at = "20 degC +- 0.3 K"}};
  EXPECT_EQ(verdict_on(&ratings, higher_when_wet).outcome, Outcome::undecided);
  EXPECT_THAT(advice_of(judge(ratings, higher_when_wet)), Not(Contains("wet-connector")));
}

TEST(Advice, ATemperatureInTheOtherUnitIsAskedForFirst) {
  // 32 degF are 0 degC, where 10 kohm of B 3977 K read 33.90 kohm; 23 degF are -5 degC, and at 23 degC they read
  // 10.94 kohm (beta equation).
  const SensorRatings ratings = plain_ratings();
  EXPECT_EQ(advice_of(judge(ratings, {{.value = "33.9 kohm", .at = "32 degC +- 1 K"}})).at(0), "unit-was-fahrenheit");
  EXPECT_EQ(advice_of(judge(ratings, {{.value = "10.94 kohm", .at = "-5 degC +- 1 K"}})).at(0), "unit-was-celsius");
  // Tenths of a thermometer, where all of several readings are right so.
  EXPECT_EQ(advice_of(judge(ratings, {{.value = "32.4 kohm", .at = "0.2 degF +- 1 K"},
                                      {.value = "19.8 kohm", .at = "10.1 degF +- 1 K"},
                                      {.value = "11.7 kohm", .at = "21.6 degF +- 1 K"}}))
                .at(0),
            "unit-was-celsius");
}

TEST(Advice, RatingsOfAnotherClassAreNamed) {
  SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "5.46 kohm", .at = "23 degC +- 0.5 K"}})),
              Contains("right-class-here"));
}

TEST(Advice, MainsOnSensorWiresMeansStop) {
  const SensorRatings ratings = plain_ratings();
  const std::vector<Typed> typed{{.value = "120 V +- 1 V", .supply = Supply::live, .measurand = "voltage"}};
  EXPECT_EQ(text_of(judge(ratings, typed), volts_at_board), "mains-on-it");
  EXPECT_THAT(advice_of(judge(ratings, typed)), Contains("stop-at-mains"));
}

TEST(Advice, IceWaterThatWasUsedIsNotAdvisedAgain) {
  const SensorRatings ratings = plain_ratings();
  const Findings bath = judge(ratings, {{.value = "31.7 kohm", .at = "0.4 degC +- 0.3 K"}});
  ASSERT_EQ(outcome_of(bath, resistance_at_temperature), Outcome::undecided);
  EXPECT_THAT(advice_of(bath), Not(Contains("ice-point")));
  // The doubt of a thermometer in air at 0 °C: perhaps a bath of which only the doubt was not said.
  const Findings unsaid = judge(ratings, {{.value = "35 kohm", .at = "0 degC +- 1 K"}});
  EXPECT_THAT(advice_of(unsaid), Contains("say-ice-doubt"));
  EXPECT_THAT(advice_of(unsaid), Not(Contains("ice-point")));
}

TEST(Advice, WetAndDryThatWereReadAreNotAskedForAgain) {
  const SensorRatings ratings = plain_ratings();
  const Typed dry{.value = "12.4 kohm", .at = "20 degC +- 0.3 K"};
  const Typed same{.value = "12.4 kohm", .at = "20 degC +- 0.3 K", .moisture = Moisture::wet};
  EXPECT_THAT(advice_of(judge(ratings, {dry, same})), ElementsAre("look-elsewhere-no-leak"));
  const Typed unsure{.value = "11.9 kohm", .at = "20 degC +- 1 K", .moisture = Moisture::wet};
  const Findings open = judge(ratings, {dry, unsure});
  ASSERT_EQ(outcome_of(open, moisture_leakage), Outcome::undecided);
  EXPECT_THAT(advice_of(open), Contains("wet-and-dry-again"));
  EXPECT_THAT(advice_of(open), Not(Contains("dry-it")));
}

TEST(Advice, AtOneTemperatureAnotherClassIsNoMoreThanPossible) {
  const SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "5 kohm", .at = "25 degC +- 0.3 K"}})), Contains("right-class-here"));
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "5 kohm", .at = "25 degC +- 0.3 K"},
                                        {.value = "16.28 kohm", .at = "0 degC +- 0.2 K"}})),
              Contains("right-class"));
}

TEST(Advice, ASecondTemperatureThatWasReadIsNotAskedFor) {
  const Findings one = judge(nullptr, {{.value = "10 kohm", .at = "25 degC +- 0.3 K"}});
  EXPECT_THAT(advice_of(one), Contains("find-the-sheet"));
  const Findings two = judge(
      nullptr, {{.value = "10 kohm", .at = "25 degC +- 0.3 K"}, {.value = "32.55 kohm", .at = "0 degC +- 0.2 K"}});
  EXPECT_THAT(advice_of(two), Contains("find-the-sheet-only"));
  // 28.70 kohm and 33.90 kohm are what 10 kohm of B 3435 K and of a two-point B 3977 K read at 0 °C (beta equation):
  // at 25 °C the three classes are one, at two temperatures the four-coefficient material stands alone.
  EXPECT_EQ(text_of(one, matching_class), "three-near");
  EXPECT_EQ(text_of(two, matching_class), "two-near-throughout");
  EXPECT_EQ(std::get<std::string>(finding_of(two, matching_class).arguments[0].value), "ntc-10k-b3977");
}

TEST(Advice, ASlipOfThePointIsNamedOfSeveralReadingsAndWithAConnectorUnsaid) {
  const SensorRatings ratings = plain_ratings();
  const Findings several = judge(
      ratings, {{.value = "1.1 kohm", .at = "23 degC +- 0.5 K"}, {.value = "3.39 kohm", .at = "0 degC +- 0.2 K"}});
  EXPECT_EQ(advice_of(several).at(0), "misread-decimal");
  EXPECT_NEAR(std::get<AnyQuantity>(several.advice()[0].arguments[1].value).value_in_si(), 11e3, 10.0);
  const Findings unsaid =
      judge(ratings, {{.value = "1.1 kohm", .at = "23 degC +- 0.5 K", .connection = Connection::unstated}});
  EXPECT_THAT(advice_of(unsaid), Contains("misread-decimal"));
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
