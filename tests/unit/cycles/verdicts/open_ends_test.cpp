// Ends that a log leaves open: asked about, and never passed in silence.
#include "made_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

/// Eight defrosts of that cause and ground, the coil at `end_celsius` at their end.
LogAnalysis ended(EndCause cause, EndGround ground, double end_celsius) {
  LogAnalysis log = good_log(8);
  for (Defrost& one : log.defrosts) {
    one.cause = cause;
    one.ground = ground;
    one.end_kelvin = one.peak_kelvin = one.lasting_peak_kelvin = melting_point_kelvin + end_celsius;
  }
  return log;
}

void expect_asked(const LogAnalysis& log, std::string_view text) {
  expect_says("defrost-end", log, Outcome::undecided, text, {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
}

TEST(OpenEnds, AreAskedAbout) {
  expect_asked(ended(EndCause::unknown, EndGround::equal_durations, 9.0), "may-be-by-time");
  expect_asked(ended(EndCause::unknown, EndGround::past_rated, 37.0), "past-rating");
  expect_asked(ended(EndCause::unknown, EndGround::past_melting, 36.0), "warm-ends");
  expect_asked(ended(EndCause::unknown, EndGround::below_rated, 3.0), "cold-ends");
  expect_asked(ended(EndCause::temperature, EndGround::equal_temperatures, 3.0), "cold-ends");
  expect_asked(ended(EndCause::unknown, EndGround::below_rated, 6.0), "below-rating");
}

// Some rises of the air are doors or warm food, and some defrosts make none.
TEST(Interval, OfTheAirAloneIsAskedAbout) {
  LogAnalysis log = good_log(8, 3.0);
  expect_says("interval", log, Outcome::out_of_limits, "too-short");
  log.has_load = log.has_coil = false;
  for (Defrost& one : log.defrosts) {
    one.has_load = one.has_coil = one.heater_is_seen = false;
    one.interval_running_second.reset();
  }
  const LogVerdict verdict = said("interval", log);
  EXPECT_NE(verdict.outcome, Outcome::out_of_limits) << verdict.text;
  LogRatings by_clock = its_ratings();
  by_clock.interval_counts_running = false;
  expect_says("interval", log, Outcome::undecided, "by-air-alone", by_clock);
}

TEST(OpenEnds, AreNoneOfWarmOnesAndOfRatedOnes) {
  expect_says("defrost-end", ended(EndCause::temperature, EndGround::equal_temperatures, 5.0), Outcome::within_limits,
              "by-temperature", {});
  expect_says("defrost-end", ended(EndCause::temperature, EndGround::rated_temperature, 3.0), Outcome::within_limits,
              "by-temperature");
}

// A control that ends by time alone, its ice gone each time, and one that leaves ice.
TEST(OpenEnds, ByTimeAreAskedAboutWhereNoTemperatureShouldEndThem) {
  expect_asked(ended(EndCause::time_limit, EndGround::rated_time, 20.0), "may-end-by-time");
  expect_says("defrost-end", ended(EndCause::time_limit, EndGround::rated_time, 0.5), Outcome::out_of_limits,
              "by-time-with-ice", {});
  expect_says("defrost-end", ended(EndCause::time_limit, EndGround::past_rated, 30.0), Outcome::out_of_limits,
              "by-time");  // where one should
}

// Four to ten minutes of a strong heater, in rows a minute and more apart: no control is known to limit them so.
TEST(OpenEnds, OfQuickOnesInFewRowsAreAskedAboutUntilALimitIsStated) {
  const auto quick = [](double end_celsius, std::size_t told) {
    LogAnalysis log = ended(EndCause::time_limit, EndGround::equal_durations, end_celsius);
    for (std::size_t i = 0; i < log.defrosts.size(); ++i) {
      log.defrosts[i].end_second = log.defrosts[i].start_second + 540.0;
      if (i >= told) log.defrosts[i].cause = EndCause::unknown;
    }
    return log;
  };
  expect_asked(quick(9.0, 8), "may-be-by-time");
  expect_asked(quick(1.0, 8), "cold-ends");
  expect_says("defrost-end", quick(9.0, 4), Outcome::undecided, "some-by-time", {});
  EXPECT_FALSE(leaves_a_question(quick(9.0, 4), judge_log(quick(9.0, 4), {})));
  LogRatings limited;
  limited.time_limit_second = 540.0;
  expect_says("defrost-end", quick(1.0, 8), Outcome::out_of_limits, "by-time-with-ice", limited);
  LogAnalysis fine = quick(1.0, 8);
  fine.coverage.spacing_second = 10.0;
  expect_says("defrost-end", fine, Outcome::out_of_limits, "by-time-with-ice", {});
}

// One of five ended cold before its limit, and nothing is told of the others.
TEST(OpenEnds, OfOneOfManyCondemnNothing) {
  LogAnalysis log = ended(EndCause::unknown, EndGround::nothing, 9.0);
  log.defrosts[2].cause = EndCause::temperature;
  log.defrosts[2].ground = EndGround::still_melting;
  log.defrosts[2].plateau_second = 0.0;
  expect_says("defrost-end", log, Outcome::undecided, "some-too-early", {});
}

TEST(ProbeElsewhere, IsAskedAboutAndCondemnsNothing) {
  LogAnalysis log = ended(EndCause::unknown, EndGround::nothing, -15.0);
  expect_says("heater-warms-coil", log, Outcome::undecided, "probe-elsewhere", {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
  EXPECT_FALSE(asks_for_a_test(judge_log(log, {})));
}

}  // namespace
}  // namespace ohmwright::cycles
