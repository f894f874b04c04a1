#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "thermostat_fixture.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

Findings judge_series(const ThermostatRatings& ratings, const std::vector<Step>& steps, double half_width = 0.5) {
  return judge(&ratings, series(steps, half_width));
}

const std::vector<Step> good_cycle{{'C', 11}, {'C', 12.2}, {'O', 13.4}, {'O', 0}, {'O', -4}, {'C', -5}};

TEST(TripPoints, BothWithinTheirLimitsPassThePart) {
  const ThermostatRatings ratings = plain_ratings();
  const Verdict verdict = verdict_on(ratings, series(good_cycle));
  EXPECT_EQ(verdict.outcome, Outcome::within_limits);
  EXPECT_NEAR(*verdict.probability_within, 1.0, 1e-12);
  ASSERT_EQ(verdict.advice.size(), 1U);
  EXPECT_EQ(verdict.advice.front().text, leave_it_in);
}

TEST(TripPoints, OneOfThemIsNotEnough) {
  const ThermostatRatings ratings = plain_ratings();
  EXPECT_EQ(verdict_on(ratings, series({{'C', 12.2}, {'O', 13.4}})).outcome, Outcome::undecided);
  EXPECT_EQ(verdict_on(ratings, series({{'O', -4}, {'C', -5}})).outcome, Outcome::undecided);
}

TEST(TripPoints, EitherOutsideCondemns) {
  const ThermostatRatings ratings = plain_ratings();
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'C', 17}, {'O', 18}}), opening_point), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'C', 7}, {'O', 8}}), opening_point), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'O', -12}, {'C', -13}}), closing_point), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'O', 3}, {'C', 2}}), closing_point), Outcome::out_of_limits);
}

TEST(TripPoints, AWideGapCondemnsOnlyWithAllOfIt) {
  const ThermostatRatings ratings = plain_ratings();
  // Nine tenths of the gap lie below 10 °C, but the readings were chosen so: a good one opens at 10.2 °C.
  const Findings wide = judge_series(ratings, {{'C', 5.6}, {'O', 10.4}}, 0.05);
  EXPECT_EQ(outcome_of(wide, opening_point), Outcome::undecided);
  EXPECT_EQ(text_of(wide, opening_point), "opened-somewhere");
  EXPECT_FALSE(finding_of(wide, opening_point).judged);
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'C', 5.0}, {'O', 9.8}}, 0.05), opening_point), Outcome::out_of_limits);
}

TEST(TripPoints, ReadingsFarApartBracketNothing) {
  const ThermostatRatings ratings = plain_ratings();
  const Findings findings = judge_series(ratings, {{'O', 22}, {'C', 5}});
  EXPECT_EQ(outcome_of(findings, closing_point), Outcome::undecided);
  EXPECT_EQ(text_of(findings, closing_point), "closed-far-apart");
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'C', -18}, {'O', 5}}), opening_point), Outcome::undecided);
  EXPECT_EQ(verdict_on(ratings, series({{'C', -18}, {'O', 5}})).outcome, Outcome::undecided);
}

TEST(TripPoints, TheWrongWayIsRefused) {
  const ThermostatRatings ratings = plain_ratings();
  EXPECT_EQ(text_of(judge_series(ratings, {{'C', 14}, {'O', 12}}), opening_point), "opened-backwards");
  EXPECT_EQ(text_of(judge_series(ratings, {{'O', -6}, {'C', -4}}), closing_point), "closed-backwards");
  // A thermometer may wobble by 0.3 K.
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'C', 13.1}, {'O', 12.9}}), opening_point), Outcome::within_limits);
}

TEST(TripPoints, AChangeAtOneTemperatureIsNone) {
  const ThermostatRatings ratings = plain_ratings();
  for (const std::vector<Step>& steps : {std::vector<Step>{{'C', 13}, {'O', 13}}, {{'O', 13}, {'C', 13}}}) {
    const Findings findings = judge_series(ratings, steps);
    EXPECT_EQ(outcome_of(findings, opening_point), Outcome::silent);
    EXPECT_EQ(outcome_of(findings, closing_point), Outcome::silent);
    EXPECT_EQ(text_of(findings, state_at_temperature), "comes-and-goes");
    EXPECT_TRUE(finding_of(findings, state_at_temperature).holds_back);
  }
}

TEST(TripPoints, ThermometersOfTheirOwnHideASmallStep) {
  // 2·0.5·√(2/3) = 0.816 K: 13.0 and 13.2 °C may be one temperature, read twice.
  const auto with = [](const char* from, const char* to) {
    return judge(plain_ratings(), {{.value = "closed", .at = from}, {.value = "OL", .at = to}});
  };
  EXPECT_EQ(text_of(with("13.0 degC +- 0.5 K", "13.2 degC +- 0.5 K"), state_at_temperature), "comes-and-goes");
  EXPECT_EQ(text_of(with("13.0 degC +- 0.5 K", "12.8 degC +- 0.5 K"), state_at_temperature), "comes-and-goes");
  EXPECT_EQ(outcome_of(with("13.0 degC +- 0.5 K", "13.5 degC +- 0.5 K"), opening_point), Outcome::within_limits);
}

TEST(TripPoints, WhatLedUpToAChangeCounts) {
  const ThermostatRatings ratings = plain_ratings();
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'C', 11}, {'C', 13}, {'O', 13}}), opening_point),
            Outcome::within_limits);
  // Cooled to 13 °C and held there: nothing warmed it.
  EXPECT_EQ(text_of(judge_series(ratings, {{'C', 15}, {'C', 13}, {'O', 13}}), state_at_temperature), "comes-and-goes");
}

TEST(TripPoints, AContactThatComesAndGoesPassesAndCondemnsNothing) {
  std::vector<Step> steps = good_cycle;
  steps.insert(steps.end(), {{'C', -10}, {'O', -10}, {'C', -10}});
  const Verdict verdict = verdict_on(plain_ratings(), series(steps));
  EXPECT_EQ(verdict.outcome, Outcome::undecided);
  ASSERT_FALSE(verdict.advice.empty());
  EXPECT_EQ(verdict.advice.front().text, hold_and_tap);
  EXPECT_EQ(text_of(judge_unrated({{.value = "closed", .at = "-40 degC"}, {.value = "OL", .at = "-40 degC"}}), stuck),
            "comes-and-goes");
}

TEST(TripPoints, TheReverseOfAThermostatIsNamed) {
  const ThermostatRatings ratings = plain_ratings();
  const Findings findings = judge_series(ratings, {{'C', 30}, {'O', -18}});
  EXPECT_EQ(text_of(findings, state_at_temperature), "reversed");
  EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::undecided);
  EXPECT_EQ(findings.advice().front().text, note_each_state);
}

TEST(TripPoints, BackwardsKeepsThePartFromPassing) {
  std::vector<Step> steps = good_cycle;
  steps.insert(steps.end(), {{'C', 14}, {'O', 12}});
  EXPECT_EQ(verdict_on(plain_ratings(), series(steps)).outcome, Outcome::undecided);
}

TEST(TripPoints, CyclesDoNotShrinkTheThermometersError) {
  const ThermostatRatings ratings = plain_ratings();
  std::vector<Step> steps;
  for (int i = 0; i < 10; ++i) steps.insert(steps.end(), good_cycle.begin(), good_cycle.end());
  const double once = *finding_of(judge_series(ratings, good_cycle), opening_point).measured_uncertainty;
  EXPECT_NEAR(*finding_of(judge_series(ratings, steps), opening_point).measured_uncertainty, once, 1e-12);
}

TEST(TripPoints, OneThermometerIsOneErrorHoweverItsReadingsAreNamed) {
  const ThermostatRatings ratings = plain_ratings();
  const Findings own =
      judge(ratings, {{.value = "closed", .at = "12.2 degC +- 0.5 K"}, {.value = "OL", .at = "13.4 degC +- 0.5 K"}});
  const Findings shared = judge_series(ratings, {{'C', 12.2}, {'O', 13.4}});
  EXPECT_NEAR(*finding_of(own, opening_point).measured_uncertainty,
              *finding_of(shared, opening_point).measured_uncertainty, 1e-12);
}

TEST(TripPoints, ScatterIsSaidAndNotAveraged) {
  const ThermostatRatings ratings = plain_ratings();
  const std::vector<Step> scattering{{'C', 11},   {'O', 11.5}, {'O', -4}, {'C', -5},
                                     {'C', 13.0}, {'O', 13.6}, {'O', -4}, {'C', -5}};
  const Findings findings = judge_series(ratings, scattering);
  EXPECT_EQ(text_of(findings, opening_point), "opened-scattering");
  EXPECT_EQ(text_of(findings, closing_point), "closed-often");
  // The span of both, 11.0 to 13.6 °C, as a rectangle beside the thermometer.
  EXPECT_NEAR(*finding_of(findings, opening_point).measured_uncertainty, std::sqrt((1.3 * 1.3 + 0.5 * 0.5) / 3.0),
              1e-9);
}

TEST(TripPoints, ScatterAcrossALimitNeedsOneTripSurelyBeyond) {
  const ThermostatRatings ratings = plain_ratings();
  const auto with_second = [&](double from, double to) {
    return judge_series(ratings, {{'C', 13}, {'O', 13.5}, {'O', -4}, {'C', -5}, {'C', from}, {'O', to}});
  };
  EXPECT_EQ(outcome_of(with_second(17.0, 17.6), opening_point), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(with_second(15.9, 16.5), opening_point), Outcome::undecided);
}

TEST(TripPoints, LagMovesTheTripAgainstTheRamp) {
  const auto with = [](std::string_view first, std::string_view second, const char* from, const char* to) {
    return judge(plain_ratings(), {{.value = first, .at = from, .ramp = "0.5 K +- 0 K", .lag = "90 s +- 0 s"},
                                   {.value = second, .at = to, .ramp = "0.5 K +- 0 K", .lag = "90 s +- 0 s"}});
  };
  EXPECT_NEAR(argument(finding_of(with("closed", "OL", "12.2 degC +- 0 K", "13.4 degC +- 0 K"), opening_point), "trip"),
              celsius(12.05).kelvin(), 1e-9);
  EXPECT_NEAR(argument(finding_of(with("OL", "closed", "-4 degC +- 0 K", "-5 degC +- 0 K"), closing_point), "trip"),
              celsius(-3.75).kelvin(), 1e-9);
}

TEST(TripPoints, ALagWithoutItsRampChangesNothing) {
  const Findings findings = judge(plain_ratings(), {{.value = "closed", .at = "12.2 degC +- 0 K", .lag = "90 s"},
                                                    {.value = "OL", .at = "13.4 degC +- 0 K", .lag = "90 s"}});
  EXPECT_NEAR(argument(finding_of(findings, opening_point), "trip"), celsius(12.8).kelvin(), 1e-9);
  EXPECT_EQ(text_of(findings, opening_point), "opened-once");
}

TEST(TripPoints, TypeOneDriftIsAFact) {
  const Findings findings = judge_series(type_1_ratings(), {{'C', 18}, {'O', 18.6}, {'O', -4}, {'C', -5}});
  EXPECT_EQ(text_of(findings, opening_point), "opened-as-type-1");
  EXPECT_EQ(outcome_of(findings, opening_point), Outcome::undecided);
  EXPECT_EQ(outcome_of(findings, closing_point), Outcome::within_limits);
  EXPECT_EQ(verdict_on(type_1_ratings(), series({{'C', 18}, {'O', 18.6}, {'O', -14}, {'C', -15}})).outcome,
            Outcome::undecided);
  EXPECT_EQ(verdict_on(type_1_ratings(), series(good_cycle)).outcome, Outcome::within_limits);
}

TEST(TripPoints, DriftInServiceCountsWhereItIsStated) {
  ThermostatRatings ratings = plain_ratings();
  ratings.opening.allowed = kelvin(5);
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'C', 16.8}, {'O', 17.2}}), opening_point), Outcome::within_limits);
}

TEST(TripPoints, WaitForTheLinkOnItsOwnLeads) {
  const ThermostatRatings ratings = ratings_with_link(4);
  EXPECT_EQ(text_of(judge(&ratings, series(good_cycle)), opening_point), "link-not-read");
  std::vector<Reading> readings = series(good_cycle);
  const std::vector<Reading> link = readings_of({{.value = "closed", .measurand = "link"}});
  readings.push_back(link[0]);
  EXPECT_EQ(verdict_on(ratings, readings).outcome, Outcome::within_limits);
  // Behind two wires a closed pair has a closed link.
  EXPECT_EQ(verdict_on(ratings_with_link(2), series(good_cycle)).outcome, Outcome::within_limits);
}

TEST(TripPoints, SayWhyTheyStaySilent) {
  const ThermostatRatings ratings = plain_ratings();
  EXPECT_EQ(text_of(judge(ratings, {{.value = "OL", .at = "22 degC"}}), opening_point), "not-seen");
  EXPECT_EQ(text_of(judge(ratings, {{.value = "OL"}}), opening_point), "no-temperature");
  EXPECT_EQ(
      text_of(judge(ratings, {{.value = "OL", .at = "22 degC", .connection = Connection::in_circuit}}), closing_point),
      "only-in-circuit");
  EXPECT_EQ(text_of(judge_unrated({{.value = "OL", .at = "22 degC"}}), closing_point), "no-ratings");
}

TEST(TripPoints, ReadingsInCircuitBracketNothing) {
  std::vector<Reading> readings = series(good_cycle);
  for (Reading& reading : readings) reading.connection = Connection::in_circuit;
  const ThermostatRatings ratings = plain_ratings();
  EXPECT_EQ(outcome_of(judge(&ratings, readings), opening_point), Outcome::silent);
}

// ---- the differential

TEST(DifferentialRule, IsJudgedAsTheClosingPointWhereNothingElseIsStated) {
  const ThermostatRatings ratings = differential_ratings();
  const Findings good = judge_series(ratings, good_cycle);
  EXPECT_EQ(text_of(good, closing_point), "closed-below-opening");
  EXPECT_EQ(outcome_of(good, closing_point), Outcome::within_limits);
  EXPECT_NEAR(argument(finding_of(good, closing_point), "difference"), 17.3, 1e-9);
  EXPECT_EQ(text_of(good, differential), "judged-as-closing");
  EXPECT_EQ(outcome_of(judge_series(ratings, {{'C', 12.2}, {'O', 13.4}, {'O', -11}, {'C', -12}}), closing_point),
            Outcome::out_of_limits);
  EXPECT_EQ(text_of(judge_series(ratings, {{'O', -4}, {'C', -5}}), closing_point), "opening-not-seen");
}

TEST(DifferentialRule, LosesTheErrorOfTheThermometer) {
  ThermostatRatings ratings = plain_ratings();
  ratings.differential = Differential{kelvin(18), kelvin(4)};
  const Findings findings = judge_series(ratings, good_cycle, 3.0);
  EXPECT_NEAR(*finding_of(findings, differential).measured_uncertainty, std::sqrt((0.36 + 0.25) / 3.0), 1e-9);
  EXPECT_EQ(outcome_of(findings, differential), Outcome::within_limits);
}

TEST(DifferentialRule, SaysWhyItStaysSilent) {
  ThermostatRatings ratings = plain_ratings();
  EXPECT_EQ(text_of(judge_series(ratings, good_cycle), differential), "not-stated");
  ratings.differential = Differential{kelvin(18), kelvin(4)};
  EXPECT_EQ(text_of(judge_series(ratings, {{'C', 12.2}, {'O', 13.4}}), differential), "not-both-seen");
  EXPECT_EQ(text_of(judge_series(ratings, {{'C', 14}, {'O', 12}}), differential), "not-in-order");
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
