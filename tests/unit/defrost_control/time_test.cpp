#include <gtest/gtest.h>

#include "control_fixture.hpp"

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

Typed watched(std::string_view value, std::string_view position = "defrost", std::string_view hertz = {},
              bool stood = false) {
  return {.measurand = "advance", .value = value, .position = position, .hertz = hertz, .stood = stood};
}

std::string_view advance_says(const ControlRatings& ratings, const std::vector<Typed>& typed) {
  return text_of(judge(ratings, typed), advance);
}

TEST(Advance, IsJudgedByTheTimerOwnHertz) {
  EXPECT_EQ(advance_says(timer(), {watched("25 min")}), "moved-in-time");
  EXPECT_EQ(advance_says(timer(), {watched("15 min")}), "moved-too-soon");
  EXPECT_EQ(advance_says(timer(), {watched("33 min", "defrost", "60 Hz")}), "moved-too-late");
  EXPECT_EQ(advance_says(timer(), {watched("33 min")}), "frequency-matters");                  // right on 50 Hz
  EXPECT_EQ(advance_says(timer(), {watched("40 min")}), "moved-too-late");                     // on any line
  EXPECT_EQ(advance_says(timer(), {watched("33 min", "defrost", "50 Hz")}), "moved-in-time");  // 27.5 min of its own
  EXPECT_EQ(advance_says(timer(), {watched("30 min")}), "moved-unsure");
  EXPECT_EQ(advance_says(board(), {watched("33 min", "defrost", "50 Hz")}), "moved-within-limit");
}

TEST(Advance, StandingStillCondemnsOnlyPastTheMostOfAGoodOne) {
  EXPECT_EQ(advance_says(timer(), {watched("40 min", "defrost", {}, true)}), "stands");
  EXPECT_EQ(advance_says(timer(), {watched("25 min", "defrost", {}, true)}), "may-still-move");
  EXPECT_EQ(advance_says(timer(), {watched("35 min", "defrost", "50 Hz", true)}), "may-still-move");
  EXPECT_EQ(advance_says(timer(), {watched("34 min", "defrost", {}, true)}), "frequency-matters");
}

TEST(Advance, StandingForAWhileIsNoQuestionOnceItMoved) {
  const Findings findings = judge(timer(), {watched("2 h", "run", {}, true), watched("25 min")});
  EXPECT_EQ(text_of(findings, advance), "moved-in-time");
  EXPECT_EQ(outcome_of(findings, advance), Outcome::within_limits);
}

Typed shaft_watched(std::string_view value, std::string_view position = "run", std::string_view share = "100 %") {
  Typed typed = watched(value, position);
  typed.shaft_stood = true;
  typed.share = share;
  return typed;
}

TEST(Advance, AMarkedShaftThatStandsIsEnough) {  // common practice, no source
  EXPECT_EQ(advance_says(timer(), {shaft_watched("30 min")}), "shaft-stands");
  EXPECT_EQ(advance_says(timer(), {shaft_watched("10 min")}), "shaft-may-turn");
  EXPECT_EQ(advance_says(timer(), {shaft_watched("30 min", "defrost", {})}), "shaft-stands");
  EXPECT_EQ(advance_says(timer(), {shaft_watched("30 min", "run", {})}), "counts-compressor");
  const Findings findings = judge(timer(), {shaft_watched("30 min")});
  EXPECT_EQ(outcome_of(findings, advance), Outcome::out_of_limits);
}

TEST(Advance, StandingLongerThanAGoodOneByItsCountIsNeverCalledNotLongEnough) {
  Typed typed = watched("13 h", "run", {}, true);  // a good one: 12 h at most; the share is a guess of ± 10 %
  typed.share = "100 %";
  EXPECT_EQ(advance_says(timer(), {typed}), "doubt-reaches");
  typed.value = "9 h";
  EXPECT_EQ(advance_says(timer(), {typed}), "may-still-move");
}

TEST(Advance, InRunTheHoursOfTheCompressorCount) {
  EXPECT_EQ(advance_says(timer(), {watched("20 h", "run", {}, true)}), "counts-compressor");
  EXPECT_EQ(advance_says(timer(), {watched("9 h", "run")}), "counts-compressor");
  EXPECT_EQ(advance_says(timer(), {watched("4 h", "run")}), "moved-too-soon");  // it cannot have counted more
  Typed shared = watched("18 h", "run");
  shared.share = "50 % +- 5 %";
  EXPECT_EQ(advance_says(timer(), {shared}), "moved-in-time");
  shared.value = "40 h";
  shared.stood = true;
  EXPECT_EQ(advance_says(timer(), {shared}), "stands");
}

TEST(Advance, NeedsAPositionAndLimits) {
  EXPECT_EQ(advance_says(timer(), {watched("25 min", {})}), "position-unstated");
  EXPECT_EQ(advance_says(solid_state_board(), {watched("25 min")}), "moves-unrated");
  EXPECT_EQ(advance_says(solid_state_board(), {watched("25 min", "defrost", {}, true)}), "stands-unrated");
  EXPECT_EQ(advance_says(timer(), {}), "not-watched");
}

Typed between(std::string_view value, bool clock = false, std::string_view share = {}, bool stood = false) {
  return {.measurand = clock ? "interval_by_clock" : "interval", .value = value, .share = share, .stood = stood};
}

std::string_view interval_says(const ControlRatings& ratings, const std::vector<Typed>& typed) {
  return text_of(judge(ratings, typed), interval);
}

TEST(Interval, CountsWhatTheControlCounts) {
  EXPECT_EQ(interval_says(board(), {between("26 h")}), "within");
  EXPECT_EQ(interval_says(board(), {between("5 h")}), "too-often");
  EXPECT_EQ(interval_says(board(), {between("120 h")}), "too-seldom");
  EXPECT_EQ(interval_says(board(), {between("96 h")}), "unsure");
  EXPECT_EQ(interval_says(board(), {between("26 h", true, "50 %")}), "within");
  EXPECT_EQ(interval_says(board(), {between("26 h", true)}), "clock-means-little");
  EXPECT_EQ(interval_says(board(), {between("5 h", true)}), "too-often-by-any-count");
  EXPECT_EQ(interval_says(board(), {between("120 h", false, {}, true)}), "none-came");
  EXPECT_EQ(interval_says(board(), {between("20 h", false, {}, true)}), "may-still-come");
}

TEST(Interval, OfTheClockNeedsTheClock) {
  const ControlRatings by_clock = ratings(
      R"({"type": "relay-board", "interval_least": "8 h", "interval_most": "12 h", "interval_counts": "clock"})");
  EXPECT_EQ(interval_says(by_clock, {between("10 h", true)}), "within");
  EXPECT_EQ(interval_says(by_clock, {between("5 h")}), "wrong-count");
  EXPECT_EQ(interval_says(by_clock, {between("5 h", false, "50 % +- 2 %")}), "within");
}

TEST(Interval, ADefrostThatCameShowsThatItMovesOn) {
  EXPECT_EQ(advance_says(board(), {between("26 h")}), "defrost-came");
  EXPECT_EQ(advance_says(board(), {between("26 h", true)}), "interval-undecided");
  EXPECT_EQ(advance_says(board(), {between("120 h")}), "interval-tells");
  EXPECT_EQ(interval_says(board(), {}), "not-read");
  EXPECT_EQ(interval_says(solid_state_board(), {between("26 h")}), "not-rated");
}

}  // namespace
}  // namespace ohmwright::defrost_control
