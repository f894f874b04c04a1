#include <cmath>

#include <gtest/gtest.h>

#include "thermostat_fixture.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

Findings judge_series(const ThermostatRatings& ratings, const std::vector<Step>& steps) {
  return judge(&ratings, series(steps));
}

TEST(StuckRule, WeldedIsClosedAtBothEnds) {
  const Findings findings = judge_series(plain_ratings(), {{'C', -15}, {'C', 25}});
  EXPECT_EQ(outcome_of(findings, stuck), Outcome::out_of_limits);
  EXPECT_EQ(text_of(findings, stuck), "welded");
}

TEST(StuckRule, StuckOpenIsOpenAtBothEnds) {
  EXPECT_EQ(text_of(judge_series(plain_ratings(), {{'O', -15}, {'O', 25}}), stuck), "stuck-open");
  EXPECT_EQ(text_of(judge_series(plain_ratings(), {{'O', 25}}), stuck), "one-end-only");
}

TEST(StuckRule, FindsTheCycleInWhichItStuck) {
  EXPECT_EQ(text_of(judge_series(plain_ratings(), {{'C', 12.2}, {'O', 13.4}, {'O', -4}, {'C', -5}, {'C', 25}}), stuck),
            "sticks-closed");
  EXPECT_EQ(text_of(judge_series(plain_ratings(), {{'O', -4}, {'C', -5}, {'C', 12.2}, {'O', 13.4}, {'O', -15}}), stuck),
            "sticks-open");
}

TEST(StuckRule, ADriftedPartDoesNotStick) {
  const Findings findings =
      judge_series(plain_ratings(), {{'C', 19}, {'O', 20}, {'O', -4}, {'C', -5}, {'C', 19}, {'O', 20}});
  EXPECT_EQ(outcome_of(findings, stuck), Outcome::within_limits);
  EXPECT_EQ(outcome_of(findings, opening_point), Outcome::out_of_limits);
}

TEST(StuckRule, CleanCyclesBoundWhatTheyMayHaveMissed) {
  std::vector<Step> steps;
  for (int i = 0; i < 10; ++i) steps.insert(steps.end(), {{'C', 12.5}, {'O', 13.3}, {'O', -4}, {'C', -4.8}});
  const Findings findings = judge_series(plain_ratings(), steps);
  EXPECT_EQ(text_of(findings, stuck), "moved-each-time");
  EXPECT_NEAR(argument(finding_of(findings, stuck), "missed_percent"), 100.0 * (1.0 - std::pow(0.05, 0.1)), 1e-9);
}

TEST(StuckRule, AsksForALiftedLeadWhereOnlyClosedSpeaks) {
  std::vector<Reading> readings = series({{'C', -15}, {'C', 25}});
  for (Reading& reading : readings) reading.connection = Connection::unstated;
  const ThermostatRatings ratings = plain_ratings();
  const Findings findings = judge(&ratings, readings);
  EXPECT_EQ(outcome_of(findings, stuck), Outcome::undecided);
  EXPECT_EQ(text_of(findings, stuck), "never-opened-connection-unstated");
}

TEST(StuckRule, TypeOneIsCondemnedPastItsWholeDifferential) {
  EXPECT_EQ(outcome_of(judge_series(type_1_ratings(), {{'C', 30}}), stuck), Outcome::silent);
  EXPECT_EQ(text_of(judge_series(type_1_ratings(), {{'C', 36}}), stuck), "still-closed");
  EXPECT_EQ(text_of(judge_series(type_1_ratings(), {{'O', -30}}), stuck), "still-open");
  EXPECT_EQ(outcome_of(judge_series(type_1_ratings(), {{'O', -30}}), stuck), Outcome::out_of_limits);
}

TEST(StuckRule, WithoutRatingsOnlyWhatHoldsForAllIsDecided) {
  EXPECT_EQ(text_of(judge(nullptr, series({{'C', 40}})), stuck), "never-opened-unrated");
  EXPECT_EQ(outcome_of(judge(nullptr, series({{'C', 40}})), stuck), Outcome::undecided);
  EXPECT_EQ(text_of(judge(nullptr, series({{'O', -35}})), stuck), "open-whatever-it-is");
  EXPECT_EQ(outcome_of(judge(nullptr, series({{'O', -18}})), stuck), Outcome::silent);
}

TEST(StuckRule, SaysWhyItStaysSilent) {
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "OL"}}), stuck), "no-state");
  EXPECT_EQ(text_of(judge_series(plain_ratings(), {{'C', -18}, {'O', 22}}), stuck), "never-moved-between");
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
