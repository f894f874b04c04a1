#include <cmath>

#include <gtest/gtest.h>

#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

std::string kilohm(double ohms) { return std::to_string(ohms / 1000.0) + " kohm"; }

/// 10 kohm, 3977 K, R25 ± 5 %, B ± 2 %, vouched for from -40 to 85 °C.
SensorRatings with_slope() {
  SensorRatings ratings = plain_ratings();
  ratings.tolerance = Tolerance(ReferenceAndSlope{0.05, 0.02, celsius(25)});
  return ratings;
}

Findings at_two(double cold, double warm, const char* cold_at = "-18 degC +- 0.2 K",
                const char* warm_at = "25 degC +- 0.2 K") {
  const std::string cold_text = kilohm(cold);
  const std::string warm_text = kilohm(warm);
  return judge(with_slope(), {{.value = cold_text, .at = cold_at}, {.value = warm_text, .at = warm_at}});
}

constexpr double at_minus_18 = 94686.5;
constexpr double at_25 = 10000.0;

TEST(SlopeRule, GoodPartPasses) {
  const Findings findings = at_two(at_minus_18, at_25);
  EXPECT_EQ(outcome_of(findings, two_temperatures), Outcome::within_limits);
  EXPECT_EQ(text_of(findings, two_temperatures), "slope-right");
  EXPECT_EQ(outcome_of(findings, readings_agree), Outcome::silent);  // 43 K apart: that is a slope
  EXPECT_NEAR(finding_of(findings, two_temperatures).limits.lower->value_in_si(), 0.98 * 3977, 0.01);
  EXPECT_NEAR(finding_of(findings, two_temperatures).limits.upper->value_in_si(), 1.02 * 3977, 0.01);
}

TEST(SlopeRule, DriftLeavesTheSlopeRight) {
  const Findings findings = at_two(1.2 * at_minus_18, 1.2 * at_25);
  EXPECT_EQ(text_of(findings, two_temperatures), "slope-right-value-off");
  EXPECT_EQ(outcome_of(findings, two_temperatures), Outcome::within_limits);
  EXPECT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::out_of_limits);
}

TEST(SlopeRule, SeriesResistanceGrowsWhenWarm) {
  const Findings findings = at_two(at_minus_18 + 3000, at_25 + 3000);
  EXPECT_EQ(outcome_of(findings, two_temperatures), Outcome::out_of_limits);
  EXPECT_EQ(text_of(findings, two_temperatures), "series-resistance");
  EXPECT_NEAR(argument(finding_of(findings, two_temperatures), "path"), 3000, 100);
}

TEST(SlopeRule, UnstatedConnectionDoesNotCondemn) {
  const auto leaking = [](double r) { return r * 200e3 / (r + 200e3); };
  const std::string cold = kilohm(leaking(at_minus_18));
  const std::string warm = kilohm(leaking(at_25));
  const std::vector<Typed> typed{{.value = cold, .at = "-18 degC +- 0.2 K", .connection = Connection::unstated},
                                 {.value = warm, .at = "25 degC +- 0.2 K"}};
  const SensorRatings ratings = with_slope();
  const Findings findings = judge(ratings, typed);
  EXPECT_EQ(outcome_of(findings, two_temperatures), Outcome::undecided);
  EXPECT_EQ(text_of(findings, two_temperatures), "connection-unstated");
  EXPECT_EQ(verdict_on(&ratings, typed).outcome, Outcome::undecided);
}

// 6 % high when cold and 3.5 % low when warm, of a part that may be 5 % off anywhere: in the mean it is right.
TEST(SlopeRule, OneTemperatureOutOfLimitsDoesNotHideInTheMean) {
  const SensorRatings ratings = plain_ratings();
  const std::vector<Typed> typed{{.value = "100.368 kohm +- 0.2 kohm", .at = "-18 degC +- 0.05 K"},
                                 {.value = "9.65 kohm +- 0.02 kohm", .at = "25 degC +- 0.05 K"}};
  const Findings findings = judge(ratings, typed);
  EXPECT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::undecided);
  EXPECT_EQ(text_of(findings, resistance_at_temperature), "one-alone-condemns");
  EXPECT_NE(verdict_on(&ratings, typed).outcome, Outcome::within_limits);
}

TEST(SlopeRule, LeakageGrowsWhenCold) {
  const auto leaking = [](double r) { return r * 200e3 / (r + 200e3); };
  const Findings findings = at_two(leaking(at_minus_18), leaking(at_25));
  EXPECT_EQ(text_of(findings, two_temperatures), "leakage");
  EXPECT_NEAR(argument(finding_of(findings, two_temperatures), "path"), 200e3, 10e3);
}

TEST(SlopeRule, AnotherCurveIsNamedAsSuch) {
  const Findings findings = at_two(69700.51, at_25);  // beta 3435
  EXPECT_EQ(outcome_of(findings, two_temperatures), Outcome::out_of_limits);
  EXPECT_EQ(text_of(findings, two_temperatures), "another-curve");
  EXPECT_NEAR(finding_of(findings, two_temperatures).measured->value_in_si(), 3435, 1);
}

TEST(SlopeRule, PoorThermometersLeaveItOpen) {
  const Findings findings = at_two(28704.29, at_25, "0 degC +- 3 K", "25 degC +- 3 K");  // beta 3435 again
  EXPECT_EQ(outcome_of(findings, two_temperatures), Outcome::undecided);
}

TEST(SlopeRule, IsSilentWithoutTwoTemperaturesApart) {
  const SensorRatings ratings = with_slope();
  EXPECT_EQ(text_of(judge(ratings, {{.value = "10 kohm", .at = "25 degC +- 1 K"}}), two_temperatures),
            "one-temperature");
  EXPECT_EQ(text_of(judge(ratings, {{.value = "10 kohm", .at = "25 degC +- 1 K"},
                                    {.value = "10.3 kohm", .at = "24 degC +- 1 K"}}),
                    two_temperatures),
            "too-close");
  EXPECT_EQ(text_of(judge(nullptr, {{.value = "10 kohm", .at = "25 degC +- 1 K"}}), two_temperatures), "no-ratings");
}

Findings wet_and_dry(double wet, const char* wet_at, double dry, const char* dry_at) {
  const std::string wet_text = kilohm(wet);
  const std::string dry_text = kilohm(dry);
  return judge(with_slope(), {{.value = wet_text, .at = wet_at, .moisture = Moisture::wet},
                              {.value = dry_text, .at = dry_at, .moisture = Moisture::dry}});
}

// A leakage of 200 kohm across the cold sensor: the control sees -11.49 °C for -18 °C (own figure, numpy).
TEST(MoistureRule, FindsALeakageThatTheBenchTestMisses) {
  const double leaking = at_minus_18 * 200e3 / (at_minus_18 + 200e3);
  const Findings findings = wet_and_dry(leaking, "-18 degC +- 0.5 K", at_25, "25 degC +- 0.2 K");
  EXPECT_EQ(outcome_of(findings, moisture_leakage), Outcome::out_of_limits);
  EXPECT_EQ(text_of(findings, moisture_leakage), "leaks");
  EXPECT_NEAR(argument(finding_of(findings, moisture_leakage), "path"), 200e3, 1e3);
  EXPECT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::within_limits);
  EXPECT_NEAR(BetaCurve(beta_3977()).temperature(ohm(leaking))->celsius(), -11.49, 0.005);
}

TEST(MoistureRule, UnstatedConnectionDoesNotCondemn) {
  const std::string wet = kilohm(at_minus_18 * 200e3 / (at_minus_18 + 200e3));
  const Findings findings =
      judge(with_slope(),
            {{.value = wet, .at = "-18 degC +- 0.5 K", .connection = Connection::unstated, .moisture = Moisture::wet},
             {.value = "10.0 kohm", .at = "25 degC +- 0.2 K"}});
  EXPECT_EQ(outcome_of(findings, moisture_leakage), Outcome::undecided);
  EXPECT_EQ(text_of(findings, moisture_leakage), "connection-unstated");
}

TEST(MoistureRule, PassesWhenWetAndDryAgree) {
  const Findings findings = wet_and_dry(at_minus_18, "-18 degC +- 0.3 K", at_25, "25 degC +- 0.2 K");
  EXPECT_EQ(outcome_of(findings, moisture_leakage), Outcome::within_limits);
}

TEST(MoistureRule, IsUndecidedBetween) {
  const Findings findings = wet_and_dry(0.95 * at_minus_18, "-18 degC +- 1.5 K", at_25, "25 degC +- 0.2 K");
  EXPECT_EQ(outcome_of(findings, moisture_leakage), Outcome::undecided);
}

TEST(MoistureRule, HigherWhenWetIsAMisreadingNotAFault) {
  const Findings findings = wet_and_dry(1.4 * at_minus_18, "-18 degC +- 0.3 K", at_25, "25 degC +- 0.2 K");
  EXPECT_EQ(outcome_of(findings, moisture_leakage), Outcome::undecided);
  EXPECT_EQ(text_of(findings, moisture_leakage), "higher-when-wet");
}

TEST(MoistureRule, WetAloneCondemnsFromAboveOnly) {
  const SensorRatings ratings = with_slope();
  const auto wet = [&](const char* value) {
    return judge(ratings, {{.value = value, .at = "0 degC +- 0.5 K", .moisture = Moisture::wet}});
  };
  EXPECT_EQ(outcome_of(wet("48 kohm"), moisture_leakage), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(wet("20 kohm"), moisture_leakage), Outcome::undecided);
  EXPECT_EQ(outcome_of(wet("33.9 kohm"), moisture_leakage), Outcome::undecided);
  EXPECT_EQ(advice_of(wet("33.9 kohm")), std::vector<std::string>{"dry-it"});
  EXPECT_EQ(verdict_on(&ratings, {{.value = "20 kohm", .at = "0 degC +- 0.5 K", .moisture = Moisture::wet}}).outcome,
            Outcome::undecided);
}

TEST(MoistureRule, IsSilentWithoutAWetReading) {
  EXPECT_EQ(text_of(judge(with_slope(), {{.value = "10 kohm", .at = "25 degC +- 1 K"}}), moisture_leakage),
            "no-wet-reading");
  EXPECT_EQ(text_of(judge(nullptr, {{.value = "10 kohm", .moisture = Moisture::wet}}), moisture_leakage), "no-ratings");
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
