// What begins in the middle of a log and lasts to its end, what ends again, and what somebody started by hand.
#include <limits>
#include <vector>

#include <ohmwright/cycles/verdicts/extra_starts.hpp>
#include <ohmwright/cycles/verdicts/lasting_changes.hpp>

#include "made_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

/// Runs of half an hour in each hour between the two times.
void add_cycles(double from_hour, double to_hour, LogAnalysis& log) {
  for (double at = from_hour; at < to_hour; at += 1.0)
    log.runs.push_back({at * hour, (at + 0.5) * hour, 110.0F, true, true});
}

/// Eight defrosts, one every ten hours; the compressor stops only for them from the hour on.
LogAnalysis running_on_from(double from_hour, double to_hour) {
  LogAnalysis log = good_log(8);
  const double end_hour = log.coverage.span_second / hour;
  add_cycles(0.0, from_hour, log);
  double start = from_hour * hour;
  for (const Defrost& one : log.defrosts) {
    if (one.start_second <= start || one.start_second >= to_hour * hour) continue;
    log.runs.push_back({start, one.start_second, 110.0F, true, true});
    start = one.end_second + 420.0;
  }
  log.runs.push_back({start, std::min(to_hour, end_hour) * hour, 110.0F, true, true});
  add_cycles(to_hour + 0.5, end_hour, log);
  return log;
}

TEST(LastingChange, IsACompressorThatNoLongerStops) {
  const LogAnalysis log = running_on_from(30.0, 1000.0);
  const auto runs = runs_on(log);
  ASSERT_TRUE(runs.has_value());
  EXPECT_NEAR(runs->from_second, 30.0 * hour, 1.0);
  expect_says("lasting-change", log, Outcome::undecided, "runs-on");
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, its_ratings())));
  // Quick freezing that ended, and one that has run for ten hours.
  expect_says("lasting-change", running_on_from(24.0, 50.0), Outcome::silent, "none");
  expect_says("lasting-change", running_on_from(75.0, 1000.0), Outcome::silent, "none");
}

TEST(LastingChange, IsAHeaterOfAnotherLevel) {
  const auto stepped = [](std::size_t first, std::size_t end) {
    LogAnalysis log = good_log(8);
    for (std::size_t i = first; i < end; ++i) log.defrosts[i].heater_load = 225.0;
    return log;
  };
  const auto step = heater_step(stepped(4, 8));
  ASSERT_TRUE(step.has_value());
  EXPECT_NEAR(step->load_before, 450.0, 1.0);
  EXPECT_NEAR(step->load_after, 225.0, 1.0);
  expect_says("lasting-change", stepped(4, 8), Outcome::undecided, "less-heat");
  EXPECT_FALSE(heater_step(good_log(8)).has_value());
  EXPECT_FALSE(heater_step(stepped(3, 5)).has_value());  // and then as before
  EXPECT_FALSE(heater_step(stepped(7, 8)).has_value());
}

/// Four days of air at -18 °C, and at `celsius` between two hours.
LogAnalysis with_air(double from_hour, double to_hour, double celsius) {
  LogAnalysis log = good_log(9);
  log.coverage.span_second = 96.0 * hour;
  for (double second = 0.0; second < 96.0 * hour; second += 60.0) {
    PlotPoint point{second, 60.0, {}};
    point.value.fill(static_cast<float>(LogRow::none));
    const bool is_odd = second >= from_hour * hour && second < to_hour * hour;
    point.value[index_of(LogQuantity::cabinet_temperature)] =
        static_cast<float>(melting_point_kelvin + (is_odd ? celsius : -18.0));
    log.outline.add(point);
  }
  return log;
}

TEST(LastingChange, IsACabinetThatGotWarm) {
  const auto warmer = other_cabinet(with_air(36.0, 96.0, -2.0));
  ASSERT_TRUE(warmer.has_value());
  EXPECT_NEAR(warmer->from_second, 36.0 * hour, 6.5 * hour);
  EXPECT_NEAR(warmer->kelvin_before, melting_point_kelvin - 18.0, 0.5);
  expect_says("lasting-change", with_air(36.0, 96.0, -2.0), Outcome::undecided, "warmer");
  EXPECT_FALSE(other_cabinet(with_air(36.0, 50.0, -2.0)).has_value());
  EXPECT_FALSE(other_cabinet(with_air(36.0, 96.0, -15.0)).has_value());
  EXPECT_FALSE(other_cabinet(with_air(0.0, 30.0, 20.0)).has_value());  // as it was plugged in
}

std::vector<BothCounts> minutes_apart(const std::vector<double>& minutes) {
  std::vector<BothCounts> intervals;
  for (const double one : minutes) intervals.push_back({60.0 * one, std::nullopt});
  return intervals;
}

/// The cabinet, or the coil, at two temperatures, up to the hour and from it on [degC].
LogAnalysis with_cabinet(double to_hour, double before, double after,
                         LogQuantity quantity = LogQuantity::cabinet_temperature) {
  LogAnalysis log = good_log(8);
  log.outline = {};
  for (double second = 0.0; second < log.coverage.span_second; second += 300.0) {
    PlotPoint point{second, 300.0, {}};
    point.value.fill(std::numeric_limits<float>::quiet_NaN());
    point.value[index_of(quantity)] =
        static_cast<float>(melting_point_kelvin + (second < to_hour * hour ? before : after));
    log.outline.add(point);
  }
  return log;
}

// A thermostat welded from a day on, and air that a dead fan moves no more since before the log.
TEST(LastingChange, IsACabinetThatGetsTooColdOrIsTooWarmFromTheFirstDay) {
  expect_says("lasting-change", with_cabinet(36.0, -18.0, -27.0), Outcome::undecided, "colder");
  expect_says("lasting-change", with_cabinet(36.0, -18.0, -21.0), Outcome::silent, "none");
  expect_says("lasting-change", with_cabinet(0.0, -18.0, -4.0), Outcome::undecided, "neither-cabinet");
  expect_says("lasting-change", with_cabinet(0.0, -18.0, 4.0), Outcome::silent, "none");  // a refrigerator's
}

// One of two elements fails, and the other draws as the compressor does: the coil shows that it heats.
TEST(LastingChange, IsAHeaterThatDrawsAsTheCompressorSince) {
  LogAnalysis log = good_log(8);
  for (std::size_t i = 3; i < 8; ++i) {
    log.defrosts[i].heater_load = 150.0;
    log.defrosts[i].draws_like_compressor = true;
  }
  expect_says("lasting-change", log, Outcome::undecided, "less-heat");
}

TEST(ExtraStarts, LeaveTheBeatOfAClockAsItIs) {
  constexpr double edge_second = 24.5;  // of rows of a minute
  EXPECT_TRUE(keep_a_beat_beside_extra_starts(
      minutes_apart({480, 480, 168, 312, 480, 480, 318, 162, 480, 480, 480, 480, 480}), edge_second));
  EXPECT_FALSE(keep_a_beat_beside_extra_starts(minutes_apart({480, 480, 168, 480, 480, 480, 318, 480}), edge_second));
  EXPECT_FALSE(keep_a_beat_beside_extra_starts(minutes_apart({168, 312, 168, 312, 480, 480}), edge_second));
  EXPECT_FALSE(keep_a_beat_beside_extra_starts(minutes_apart({180, 180, 180, 180, 180, 180, 180, 180}), edge_second));
}

TEST(ExtraStarts, CondemnNoTimer) {
  LogRatings by_clock = its_ratings();
  by_clock.interval_counts_running = false;
  const auto with = [](const std::vector<double>& minutes) {
    LogAnalysis log = good_log(static_cast<int>(minutes.size()) + 1, 8.0);
    for (std::size_t i = 0; i < minutes.size(); ++i) log.defrosts[i + 1].interval_second = 60.0 * minutes[i];
    return log;
  };
  expect_says("interval", with({480, 480, 168, 312, 480, 480, 318, 162, 480, 480, 480, 480, 480}), Outcome::undecided,
              "one-too-short", by_clock);
  expect_says("interval", with({480, 120, 130, 480, 140, 480, 110, 480}), Outcome::out_of_limits, "too-short",
              by_clock);
  expect_says("interval", with({180, 180, 180, 180, 180, 180, 180, 180}), Outcome::out_of_limits, "too-short",
              by_clock);
  expect_says("interval", with({180, 180, 180, 70, 110, 180, 180, 180, 180}), Outcome::out_of_limits, "too-short",
              by_clock);
}

// A heater that stays on beside the compressor, a charge that is lost, and a fan that no longer turns.
TEST(LastingChange, IsACoilThatGotWarmOrMuchColder) {
  constexpr LogQuantity coil = LogQuantity::coil_temperature;
  expect_says("lasting-change", with_cabinet(36.0, -23.0, 9.0, coil), Outcome::undecided, "warmer-coil");
  expect_says("lasting-change", with_cabinet(36.0, -23.0, -11.0, coil), Outcome::undecided, "warmer-coil");
  expect_says("lasting-change", with_cabinet(36.0, -23.0, -31.0, coil), Outcome::undecided, "colder-coil");
  expect_says("lasting-change", with_cabinet(36.0, -23.0, -18.0, coil), Outcome::silent, "none");
  expect_says("lasting-change", with_cabinet(36.0, -23.0, -27.0, coil), Outcome::silent, "none");
}

/// Four days of a coil and a cabinet at such temperatures, a compressor that never stops, and no defrost.
LogAnalysis without_cold(double coil_celsius, double cabinet_celsius) {
  LogAnalysis log = with_cabinet(1.0, cabinet_celsius, cabinet_celsius);
  PlotPoint point{0.0, log.outline.column_second(), {}};
  LogOutline outline;
  for (double second = 0.0; second < log.coverage.span_second; second += 600.0) {
    point.second = second;
    point.width_second = 600.0;
    point.value.fill(static_cast<float>(LogRow::none));
    point.value[index_of(LogQuantity::coil_temperature)] = static_cast<float>(melting_point_kelvin + coil_celsius);
    point.value[index_of(LogQuantity::cabinet_temperature)] =
        static_cast<float>(melting_point_kelvin + cabinet_celsius);
    outline.add(point);
  }
  log.outline = outline;
  log.defrosts.clear();
  log.defrost_count = 0;
  log.never_stops = true;
  log.run_share = 1.0;
  log.runs = {{0.0, log.coverage.span_second, 95.0F, false, false}};
  log.before_first = {log.coverage.span_second, log.coverage.span_second, 0.0};
  return log;
}

// What runs and does not get cold is no matter of the defrost's parts: condenser and fan, then the sealed system.
TEST(LastingChange, OfWhatDoesNotGetColdBlamesNoDefrostPart) {
  expect_says("lasting-change", without_cold(2.0, 4.0), Outcome::undecided, "runs-warm-cabinet", {});
  expect_says("defrosts-come", without_cold(2.0, 4.0), Outcome::undecided, "needs-none", {});
  expect_says("lasting-change", without_cold(-5.0, -4.0), Outcome::undecided, "runs-warm-cabinet", {});
  EXPECT_FALSE(no_cold(without_cold(-10.0, -4.0)).has_value());  // it takes heat out of the air
  EXPECT_FALSE(no_cold(without_cold(-22.0, -21.0)).has_value());
  LogAnalysis coil_alone = without_cold(2.0, 4.0);
  coil_alone.has_load = coil_alone.has_cabinet = false;
  coil_alone.runs.clear();
  expect_says("lasting-change", coil_alone, Outcome::undecided, "coil-warm-cabinet", {});
  expect_says("defrosts-come", coil_alone, Outcome::undecided, "needs-none", {});
}

// Quick freezing makes it colder: what got warmer is none, and what got colder is not let in by a door.
TEST(LastingChange, OfACompressorThatNoLongerStopsSaysWhatTheCabinetDoes) {
  for (const auto& [after, text] : {std::pair{-8.0, "runs-on-warmer"}, std::pair{-28.0, "runs-on-colder"}}) {
    LogAnalysis log = running_on_from(30.0, 1000.0);
    log.outline = with_cabinet(36.0, -18.0, after).outline;
    expect_says("lasting-change", log, Outcome::undecided, text);
  }
}

// Nobody is sent to the timer by a coil at 9 degC from which no rise stands out.
TEST(LastingChange, OfACoilThatStaysWarmHidesDefrosts) {
  LogAnalysis log = with_cabinet(36.0, -23.0, 9.0, LogQuantity::coil_temperature);
  log.defrosts.clear();
  log.defrost_count = 0;
  log.has_load = log.has_cabinet = false;
  log.before_first = {log.coverage.span_second, 0.5 * log.coverage.span_second, 0.0};
  expect_says("defrosts-come", log, Outcome::undecided, "coil-stays-warm", {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
  EXPECT_FALSE(asks_for_a_test(judge_log(log, {})));
}

}  // namespace
}  // namespace ohmwright::cycles
