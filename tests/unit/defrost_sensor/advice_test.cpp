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
  const auto steps = ElementsAre("touch-the-probes", "read-at-the-sensor", "replace-alike");
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "OL"}})), steps);
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "0.3 ohm"}})), steps);
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

TEST(Advice, RatingsOfAnotherClassAreNamed) {
  SensorRatings ratings = plain_ratings();
  EXPECT_THAT(advice_of(judge(ratings, {{.value = "5.46 kohm", .at = "23 degC +- 0.5 K"}})), Contains("right-class"));
}

TEST(Advice, MainsOnSensorWiresMeansStop) {
  const SensorRatings ratings = plain_ratings();
  const std::vector<Typed> typed{{.value = "120 V +- 1 V", .supply = Supply::live, .measurand = "voltage"}};
  EXPECT_EQ(text_of(judge(ratings, typed), volts_at_board), "mains-on-it");
  EXPECT_THAT(advice_of(judge(ratings, typed)), Contains("stop-at-mains"));
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
