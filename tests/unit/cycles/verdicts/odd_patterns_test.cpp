// Defrosts that fail now and then, and a dead heater beside a compressor that draws as much: from values made by hand.
// Limits are those of the rules (docs/arithmetic.md).
#include <utility>
#include <vector>

#include <ohmwright/cycles/guessed_units.hpp>

#include "made_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace ohmwright::cycles::testing_support;

LogAnalysis with_clock_intervals(const std::vector<double>& hours) {
  LogAnalysis log = good_log(static_cast<int>(hours.size()) + 1);
  for (std::size_t i = 0; i < hours.size(); ++i) log.defrosts[i + 1].interval_second = hours[i] * hour;
  return log;
}

TEST(Interval, OfWhichWholeMultiplesStandBetweenEvenOnesMissesDefrosts) {
  const LogAnalysis misses = with_clock_intervals({8.0, 8.0, 16.0, 8.0, 8.0, 16.0, 8.0});
  expect_says("interval", misses, Outcome::undecided, "misses-beats", {});
  EXPECT_TRUE(leaves_a_question(misses, judge_log(misses, {})));
  // A control that lengthens its interval, one that varies it, and a gap in the log.
  for (const auto& hours : {std::vector<double>{8.0, 8.0, 8.0, 8.0, 16.0, 16.0},
                            std::vector<double>{8.0, 9.0, 16.0, 8.0, 7.0, 8.0, 8.0}, std::vector<double>(7, 8.0)})
    expect_says("interval", with_clock_intervals(hours), Outcome::silent, "no-ratings", {});
  LogAnalysis gap = with_clock_intervals({8.0, 8.0, 16.0, 8.0, 8.0, 8.0});
  gap.defrosts[3].gap_in_interval_second = hour;
  expect_says("interval", gap, Outcome::silent, "no-ratings", {});
  LogAnalysis kettle = misses;
  kettle.defrosts[1].heater_load = 2000.0;
  expect_says("interval", kettle, Outcome::silent, "no-ratings", {});
}

// At the end, too: a clock without an exception owes two, and one more may come yet.
TEST(Interval, OfAnExactBeatThatOwesDefrostsAtTheEndMissesThem) {
  LogAnalysis log = with_clock_intervals(std::vector<double>(5, 8.0));
  log.after_last.second = 23.0 * hour;
  expect_says("interval", log, Outcome::undecided, "misses-beats", {});
  log.after_last.second = 15.0 * hour;
  expect_says("interval", log, Outcome::silent, "no-ratings", {});
  log.after_last = {23.0 * hour, std::nullopt, 10.0 * hour};  // it was unplugged
  expect_says("interval", log, Outcome::silent, "no-ratings", {});
}

/// A log of load alone, its heatings of those minutes.
LogAnalysis load_of(const std::vector<double>& minutes) {
  LogAnalysis log = good_log(static_cast<int>(minutes.size()));
  log.has_coil = log.has_cabinet = false;
  for (std::size_t i = 0; i < minutes.size(); ++i) {
    Defrost& one = log.defrosts[i];
    one.end_second = one.start_second + 60.0 * minutes[i];
    one.cause = EndCause::unknown;
    one.ground = EndGround::nothing;
    one.has_coil = one.rise_is_seen = false;
    one.end_kelvin = one.peak_kelvin = one.lasting_peak_kelvin = std::nullopt;
  }
  return log;
}

TEST(DefrostEnd, OfLengthsThatStepToALongerOneMayBeALimit) {
  const LogAnalysis steps = load_of({9.5, 13.6, 11.0, 12.0, 30.0, 30.0, 30.0, 30.0, 30.0});
  expect_says("defrost-end", steps, Outcome::undecided, "steps-to-one-length", {});
  EXPECT_TRUE(leaves_a_question(steps, judge_log(steps, {})));
  expect_says("defrost-end", load_of({9.0, 10.0, 9.0, 10.0, 30.0, 30.0, 30.0, 30.0}), Outcome::undecided,
              "steps-to-one-length", {});
  for (const auto& minutes : {std::vector<double>{20.0, 20.0, 20.0, 30.0, 30.0, 30.0, 30.0},  // never varied
                              std::vector<double>{9.5, 13.6, 11.0, 30.0, 12.0, 30.0, 30.0, 30.0},
                              std::vector<double>{19.5, 23.6, 21.0, 18.0, 21.0, 21.0, 21.0, 21.0}})
    expect_says("defrost-end", load_of(minutes), Outcome::undecided, "not-told", {});
}

/// Three days of load alone beside a compressor of 118 W, and no heating in them.
LogAnalysis no_heating() {
  LogAnalysis log = good_log(0);
  log.has_coil = log.has_cabinet = false;
  log.coverage.span_second = 72.0 * hour;
  log.before_first = {72.0 * hour, 36.0 * hour, 0.0};
  for (int i = 0; i < 50; ++i) log.runs.push_back({i * hour, (i + 0.5) * hour, 118.0F});
  return log;
}

TEST(DefrostsCome, IsAQuestionWhereNoHeaterWasSeenAtAll) {
  const LogAnalysis log = no_heating();
  expect_says("defrosts-come", log, Outcome::undecided, "load-hides-heater", {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
}

// K83: 10 CFR 430 takes 96 h of running for the longest of a control of variable intervals, where none is stated. One
// that came each 10 h for three times in a row is a timer's.
TEST(DefrostsCome, ButRarelyOfASlowControl) {
  // Its formula makes 24 h of that: where none was ever seen, no more is waited for.
  LogAnalysis never = good_log(0);
  never.coverage.span_second = 75.0 * hour;
  never.before_first = {75.0 * hour, 24.6 * hour, 0.0};
  expect_says("defrosts-come", never, Outcome::undecided, "slow-or-none", {});
  never.before_first.running_second = 27.0 * hour;
  expect_says("defrosts-come", never, Outcome::out_of_limits, "none-seen", {});
  LogAnalysis log = good_log(1);
  log.before_first = {80.7 * hour, 24.6 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::undecided, "slow-or-none", {});
  EXPECT_TRUE(leaves_a_question(log, judge_log(log, {})));
  log.before_first = {320.0 * hour, 97.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-before", {});
  log = good_log(4);
  log.after_last = {80.0 * hour, 25.0 * hour, 0.0};
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since", {});
  for (std::size_t i = 1; i < 4; ++i) {
    const double growing = static_cast<double>(i * i);
    log.defrosts[i].interval_second = growing * 6.0 * hour;
    log.defrosts[i].interval_running_second = growing * 2.0 * hour;
  }
  expect_says("defrosts-come", log, Outcome::undecided, "slow-or-none", {});
  // Where the running was not logged it goes by its share of the rest.
  log.run_share = 0.3;
  log.after_last = {300.0 * hour, std::nullopt, 0.0};
  expect_says("defrosts-come", log, Outcome::undecided, "slow-or-none", {});
  log.after_last.second = 330.0 * hour;
  expect_says("defrosts-come", log, Outcome::out_of_limits, "none-since", {});
}

/// What the heater draws, the log from after the repair shows.
TEST(Repair, OfADeadHeaterIsProvedByTheLoadOfTheNewOne) {
  LogAnalysis after = load_of({10.0, 8.0, 11.0, 9.0, 10.0, 12.0});
  after.runs = no_heating().runs;
  const RepairComparison comparison = compare_repair(no_heating(), after, {});
  EXPECT_TRUE(comparison.fault_before);
  for (const RuleChange& one : comparison.rules)
    if (one.rule == "defrosts-come") {
      EXPECT_EQ(one.before.text, "none-seen");
      EXPECT_EQ(one.stand, RepairStand::gone);
    }
  EXPECT_EQ(comparison.outcome, Outcome::within_limits);
  // One that draws like the compressor hides beside it in either log.
  for (Defrost& one : after.defrosts) one.heater_load = 150.0;
  EXPECT_FALSE(compare_repair(no_heating(), after, {}).fault_before);
}

/// A log whose coil was read as degC without a unit beside it, with defrosts that rest at `rest` and end at `end`.
LogAnalysis of_guessed_unit(double rest_celsius, double end_celsius, double plateau_second) {
  LogAnalysis log = good_log(4);
  for (std::size_t i = 0; i < log.defrosts.size(); ++i) {
    Defrost& one = log.defrosts[i];
    one.plateau_second = plateau_second;
    one.lasting_peak_kelvin = one.end_kelvin = one.peak_kelvin = melting_point_kelvin + end_celsius;
    DefrostTrace trace{i, {}};
    for (int minute = 0; minute < 20; ++minute) {
      const double before = -4.0 + (rest_celsius + 4.0) * minute / 5.0;
      const double behind = rest_celsius + (end_celsius - rest_celsius) * (minute - 14) / 6.0;
      const double celsius = minute < 5 ? before : minute < 15 ? rest_celsius : behind;
      PlotPoint point{one.start_second + 60.0 * minute, 60.0, {}};
      point.value[index_of(LogQuantity::coil_temperature)] = static_cast<float>(melting_point_kelvin + celsius);
      trace.points.push_back(point);
    }
    log.traces.push_back(trace);
  }
  return log;
}

TEST(GuessedUnit, IsDoubtedWhereTheCoilRestsAt32OrGetsTooHotForIce) {
  const auto found = [](std::string_view finding, const char* unit) {
    return std::vector<LogFinding>{
        {finding, {{"quantity", std::string("coil_temperature")}, {"unit", std::string(unit)}}}};
  };
  const auto doubted = [](const std::vector<LogFinding>& reading, LogAnalysis log) {
    doubt_guessed_units(reading, log);
    return std::pair(log.unit_in_doubt[index_of(LogQuantity::coil_temperature)],
                     log.findings.empty() ? std::string_view() : log.findings.back().id);
  };
  using Doubted = std::pair<bool, std::string_view>;
  const auto by_values = found("unit-guessed", "degC");
  EXPECT_EQ(doubted(by_values, of_guessed_unit(32.0, 53.6, 0.0)), Doubted(true, "unit-guess-contradicted"));
  EXPECT_EQ(doubted(by_values, of_guessed_unit(20.0, 53.6, 0.0)), Doubted(true, "unit-guess-unproved"));
  EXPECT_EQ(doubted(by_values, of_guessed_unit(0.0, 53.6, 600.0)), Doubted(false, ""));
  EXPECT_EQ(doubted(by_values, of_guessed_unit(20.0, 30.0, 0.0)), Doubted(false, ""));
  // A header may be wrong, too: no coil rests at 32 degC. That it gets hot is no ground against one.
  const auto by_header = found("unit-written", "degC");
  EXPECT_EQ(doubted(by_header, of_guessed_unit(32.0, 53.6, 0.0)), Doubted(true, "unit-in-header-contradicted"));
  EXPECT_EQ(doubted(by_header, of_guessed_unit(20.0, 53.6, 0.0)), Doubted(false, ""));
  EXPECT_EQ(doubted(by_header, of_guessed_unit(0.0, 53.6, 600.0)), Doubted(false, ""));
  EXPECT_EQ(doubted(found("unit-written", "degF"), of_guessed_unit(32.0, 53.6, 0.0)), Doubted(false, ""));
  EXPECT_EQ(doubted({}, of_guessed_unit(32.0, 53.6, 0.0)), Doubted(false, ""));
  // An alarm waits for no unit.
  LogAnalysis heats_on = of_guessed_unit(32.0, 53.6, 0.0);
  heats_on.lasting_heat = LastingHeat{0.0, hour, 450.0, melting_point_kelvin + 60.0, HeatGround::hot_coil};
  EXPECT_EQ(doubted(by_values, heats_on), Doubted(false, ""));
}

}  // namespace
}  // namespace ohmwright::cycles
