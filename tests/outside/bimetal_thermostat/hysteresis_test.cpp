#include <gtest/gtest.h>

#include <ohmwright/uncertainty/error_source.hpp>

#include "rules/good_part.hpp"
#include "thermostat_fixture.hpp"

// States between the trip points. Terms and the two types of action: IEC 60730-1 and 60730-2-9 (from memory).

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

// Opens at N(12.8, 1.65) °C, the part at 16 °C with u = 0.6 K, normal: P(still closed) = Φ(-3.2/√(1.65² + 0.6²)) =
// 0.034179749 (numpy and GSL).
TEST(HysteresisOutside, StillClosedAtSixteenDegrees) {
  const TripPoint trip{celsius(12.8), kelvin(3.3), kelvin(3.3), Spread::normal};
  const ErrorSource thermometer{"thermometer", "", Shape::normal};
  Estimate temperature(celsius(16).kelvin());
  temperature.add_term(0, 0.6);
  EXPECT_NEAR(may_trip_above(trip, temperature, {&thermometer, 1}), 0.034179749, 1e-7);
}

// The same with the thermometer as a rectangle of the same u, as readings have it: 0.034133215 (mpmath quadrature). It
// condemns at 95 %.
TEST(HysteresisOutside, TheSameWithARectangularThermometer) {
  ThermostatRatings ratings = plain_ratings();
  ratings.opening = {celsius(12.8), kelvin(3.3), kelvin(3.3), Spread::normal};
  const Findings findings = judge(ratings, {{.value = "closed", .at = "16 degC +- 1.0392304845 K"}});
  EXPECT_NEAR(finding_of(findings, state_at_temperature).probability, 0.034133215, 1e-8);
  EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::out_of_limits);
}

// Below the lowest closing temperature a good one is closed, above the highest opening temperature open, between the
// two either (differential, IEC 60730-1).
TEST(HysteresisOutside, OnlyOutsideTheDifferentialIsAStateWrong) {
  struct Case {
    const char* value;
    const char* at;
    Outcome outcome;
  };
  for (const Case& c :
       {Case{"closed", "-18 degC +- 0.5 K", Outcome::undecided},
        Case{"OL", "-18 degC +- 0.5 K", Outcome::out_of_limits}, Case{"closed", "5 degC +- 0.5 K", Outcome::undecided},
        Case{"OL", "5 degC +- 0.5 K", Outcome::undecided}, Case{"closed", "22 degC +- 0.5 K", Outcome::out_of_limits},
        Case{"OL", "22 degC +- 0.5 K", Outcome::undecided}})
    EXPECT_EQ(outcome_of(judge(plain_ratings(), {{.value = c.value, .at = c.at}}), state_at_temperature), c.outcome)
        << c.value << " at " << c.at;
}

// Type 1 action: manufacturing deviation and drift are not declared and not tested (IEC 60730-1, from memory; the
// titles of type 1 and type 2 were seen in IEC 60730-2-9:2015/AMD1:2018, annex EE).
TEST(HysteresisOutside, TypeOnePromisesNoTripValue) {
  const std::vector<Step> drifted{{'C', 18}, {'O', 18.6}, {'O', -14}, {'C', -15}};
  EXPECT_EQ(verdict_on(type_1_ratings(), series(drifted)).outcome, Outcome::undecided);
  EXPECT_EQ(verdict_on(plain_ratings(), series(drifted)).outcome, Outcome::out_of_limits);
}

// A thermal link opens within +0/-10 K of its functioning temperature, once (IEC 60691, from memory).
TEST(HysteresisOutside, ALinkIsClosedBelowItsBand) {
  const ThermostatRatings ratings = ratings_with_link(4);
  EXPECT_EQ(outcome_of(judge(ratings, {{.value = "OL", .at = "22 degC", .measurand = "link"}}), thermal_link),
            Outcome::out_of_limits);
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
