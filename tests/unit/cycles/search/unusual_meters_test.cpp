// Logs of meters and appliances that are out of the common: values written on change only, a heater of two steps, hot
// gas, rows a quarter of an hour apart. The events are those that the log was made of.
#include <cmath>
#include <cstdint>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/cycles/verdicts/log_verdict.hpp>

#include "analysed.hpp"
#include "event_tally.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

LogAnalysis of_log(const std::vector<LogRow>& rows) {
  LogAnalyser analyser;
  analyser.take(rows);
  return analyser.finish();
}

double watt_of(const LogRow& row) { return row.value[index_of(LogQuantity::power)]; }

SimulatedPlan power_only() {
  SimulatedPlan plan = plain_plan();
  plan.has_coil = false;
  return plan;
}

/// What a plug that reports a change of 1 W and 3 % writes of these rows.
std::vector<LogRow> changes_of(const std::vector<LogRow>& rows) {
  std::vector<LogRow> changes;
  for (const LogRow& row : rows)
    if (changes.empty() ||
        std::abs(watt_of(row) - watt_of(changes.back())) > std::max(1.0, 0.03 * watt_of(changes.back())))
      changes.push_back(row);
  return changes;
}

TEST(MeterThatWritesChanges, HoldsEachValueUntilTheNext) {
  SimulatedPlan plan = power_only();
  plan.power_noise = 0.0;
  SimulatedLog log = simulate(plan, 4);
  const LogAnalysis whole = analysed(log);
  log.rows = changes_of(log.rows);
  ASSERT_LT(log.rows.size(), 10000U);
  const LogAnalysis analysis = analysed(log);
  EXPECT_TRUE(says(analysis, "load-written-on-change"));
  EXPECT_FALSE(says(analysis, "gaps-can-hide-defrosts"));
  EventTally tally;
  tally.add(log, analysis, 4);
  EXPECT_GT(tally.expected, 8U);
  EXPECT_EQ(tally.recall(), 1.0) << tally.misses;
  EXPECT_EQ(tally.precision(), 1.0) << tally.misses;
  EXPECT_EQ(tally.onset_share(), 1.0) << tally.misses;
  EXPECT_EQ(analysis.run_count, whole.run_count);
  EXPECT_NEAR(analysis.energy_joule, whole.energy_joule, 0.02 * whole.energy_joule);
}

TEST(MeterThatWritesChanges, IsNoMeterWhoseRowsAreMissing) {
  SimulatedPlan plan = power_only();
  plan.gap_share = 0.3;
  const LogAnalysis analysis = analysed(simulate(plan, 3));
  EXPECT_FALSE(says(analysis, "load-written-on-change"));
  EXPECT_TRUE(says(analysis, "gaps-can-hide-defrosts"));
}

TEST(MeterThatWritesChanges, HasAGapWhereItIsSilentForTooLong) {
  SimulatedPlan plan = power_only();
  plan.power_noise = 0.0;
  SimulatedLog log = simulate(plan, 4);
  std::erase_if(log.rows, [](const LogRow& row) { return row.time_second > 100'000.0 && row.time_second < 140'000.0; });
  const LogAnalysis analysis = of_log(changes_of(log.rows));
  EXPECT_TRUE(says(analysis, "load-written-on-change"));
  EXPECT_TRUE(says(analysis, "gaps-can-hide-defrosts"));
}

/// Load of a freezer, a row a minute: 110 W for 20 of 45 min; where `heats`, 250 W for 20 min each 10 h, then a pause.
std::vector<LogRow> minutes_of_load(bool heats) {
  std::vector<LogRow> rows;
  for (int minute = 0; minute < 6 * 1440; ++minute) {
    const int since = (minute + 300) % 600;
    LogRow row;
    row.time_second = 60.0 * minute;
    row.value[index_of(LogQuantity::power)] = minute % 45 < 20 ? 110.0 : 2.0;
    if (heats && since < 28) row.value[index_of(LogQuantity::power)] = since < 20 ? 250.0 : 2.0;
    rows.push_back(row);
  }
  return rows;
}

void add_load(std::vector<LogRow>& rows, int every_minutes, int minutes, double watt) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (static_cast<int>(i) % every_minutes < minutes) rows[i].value[index_of(LogQuantity::power)] += watt;
}

TEST(OtherLoads, AKettleOnTheCircuitHidesNoDefrost) {
  std::vector<LogRow> rows = minutes_of_load(true);
  add_load(rows, 241, 3, 2000.0);
  EXPECT_EQ(of_log(rows).defrost_count, 14U);
}

TEST(OtherLoads, AnIceMakersHeaterBesideTheCompressorIsNoDefrost) {
  std::vector<LogRow> rows = minutes_of_load(false);
  add_load(rows, 97, 6, 150.0);
  EXPECT_EQ(of_log(rows).defrost_count, 0U);
}

TEST(RunTime, OfRowsThatAreMeansIsNotLongerByThem) {
  for (const int row_minutes : {1, 2, 3}) {
    std::vector<LogRow> rows;
    for (int row = 0; row < 4 * 1440 / row_minutes; ++row) {
      double seconds_on = 0.0;  // 10 min 20 s of each 25 min 50 s
      for (int second = 0; second < 60 * row_minutes; second += 10)
        seconds_on += (60 * row_minutes * row + second) % 1550 < 620 ? 10.0 : 0.0;
      LogRow one;
      one.time_second = 60.0 * row_minutes * row;
      one.value[index_of(LogQuantity::power)] = 2.0 + 108.0 * seconds_on / (60.0 * row_minutes);
      rows.push_back(one);
    }
    const LogAnalysis analysis = of_log(rows);
    ASSERT_TRUE(analysis.run_share) << row_minutes;
    EXPECT_NEAR(*analysis.run_share, 0.4, 0.01) << row_minutes;
  }
}

TEST(RunTime, OfRunsAsShortAsRowsIsNotShown) {
  std::vector<LogRow> rows;
  for (int row = 0; row < 4 * 288; ++row) {
    LogRow one;
    one.time_second = 300.0 * row;
    one.value[index_of(LogQuantity::power)] = row % 2 == 0 ? 80.0 : 2.0;
    rows.push_back(one);
  }
  const LogAnalysis analysis = of_log(rows);
  EXPECT_FALSE(analysis.run_share);
  EXPECT_TRUE(says(analysis, "run-time-not-shown"));
}

TEST(HeaterOfTwoSteps, HeatsUntilTheLowerOneEnds) {
  SimulatedPlan plan = power_only();
  plan.heater_watt = 450.0;
  plan.second_step = 0.6;
  plan.spacing_second = 5.0;
  const SimulatedLog log = simulate(plan, 6);
  const LogAnalysis analysis = analysed(log);
  ASSERT_EQ(analysis.defrosts.size(), log.defrosts.size());
  for (std::size_t i = 0; i < log.defrosts.size(); ++i) {
    if (log.defrosts[i].is_hidden) continue;
    EXPECT_NEAR(analysis.defrosts[i].end_second, log.defrosts[i].end_second, 60.0) << i;
  }
}

/// Load and coil of a freezer whose compressor defrosts by its hot gas, a row each half minute: 12 min of it each 8 h,
/// three minutes of rest on both sides.
std::vector<LogRow> hot_gas_log() {
  std::vector<LogRow> rows;
  double coil = 245.0;
  for (double second = 0.0; second < 4.0 * 86400.0; second += 30.0) {
    const double since = std::fmod(second + 20'000.0, 28'800.0);
    const bool heats = since < 720.0;
    const bool rests = !heats && (since < 900.0 || since > 28'620.0);
    const bool runs = !heats && !rests && (since < 4500.0 || std::fmod(since, 4000.0) < 1400.0);
    const double target = runs ? 242.0 : 255.0;
    if (heats)
      coil += coil > 272.0 && coil < 273.2 ? 0.1 : 1.9;
    else
      coil += (target - coil) * (runs ? 0.08 : 0.02);
    LogRow row;
    row.time_second = second;
    row.value[index_of(LogQuantity::power)] = heats ? 109.0 : runs ? 100.0 : 2.0;
    row.value[index_of(LogQuantity::coil_temperature)] = coil;
    rows.push_back(row);
  }
  return rows;
}

TEST(HotGas, EndsWithItsPauseAndWeighsNoFrost) {
  const LogAnalysis analysis = of_log(hot_gas_log());
  EXPECT_EQ(analysis.defrost_count, 12U);
  EXPECT_TRUE(says(analysis, "heat-draws-like-compressor"));
  for (const Defrost& one : analysis.defrosts) {
    EXPECT_NEAR(one.end_second - one.start_second, 720.0, 60.0) << one.start_second;
    EXPECT_FALSE(one.frost.has_value());
  }
}

/// Load, and coil where it is given, of a compressor without a heater: so many minutes on, so many off, a row a minute.
std::vector<LogRow> compressor_alone(double on_minutes, double off_minutes, bool has_coil = false) {
  std::vector<LogRow> rows;
  double coil = 255.0;
  for (double minute = 0.0; minute < 4.0 * 1440.0; minute += 1.0) {
    const double since = std::fmod(minute + 30.0, on_minutes + off_minutes);
    const bool runs = since >= off_minutes;
    coil += ((runs ? 243.0 : 258.0) - coil) * (runs ? 0.1 : 0.03);
    LogRow row;
    row.time_second = 60.0 * minute;
    row.value[index_of(LogQuantity::power)] = (runs ? 118.0 : 3.0) + 0.3 * std::fmod(7.0 * minute, 3.0);
    if (has_coil) row.value[index_of(LogQuantity::coil_temperature)] = coil;
    rows.push_back(row);
  }
  return rows;
}

TEST(OneLevelAboveStandby, IsTheCompressorHoweverLongItsCycles) {
  for (const auto& [on, off] : {std::pair{50.0, 130.0}, std::pair{60.0, 180.0}, std::pair{90.0, 180.0},
                                std::pair{120.0, 200.0}, std::pair{50.0, 200.0}}) {
    const LogAnalysis analysis = of_log(compressor_alone(on, off));
    EXPECT_EQ(analysis.defrost_count, 0U) << on << " " << off;
    EXPECT_NEAR(static_cast<double>(analysis.run_count), 5760.0 / (on + off), 1.5) << on << " " << off;
    EXPECT_FALSE(says(analysis, "load-cools-or-heats")) << on << " " << off;
  }
}

TEST(OneLevelAboveStandby, IsLeftOpenWhereItMayCoolOrHeat) {
  const LogAnalysis analysis = of_log(compressor_alone(40.0, 380.0));
  EXPECT_EQ(analysis.defrost_count, 0U);
  EXPECT_TRUE(says(analysis, "load-cools-or-heats"));
}

TEST(OneLevelAboveStandby, IsNoHeaterWhereTheCoilGrowsColder) {
  EXPECT_EQ(of_log(compressor_alone(25.0, 455.0)).defrost_count, 12U);  // as a meter in the heater's circuit shows it
  EXPECT_EQ(of_log(compressor_alone(25.0, 455.0, true)).defrost_count, 0U);
}

/// An inverter, a row a minute, over four days: 40 W, each 10 h a pause of 35 min, and behind it `fast_watt` that fade
/// to 40 W within hours. Where the heater is not dead it draws 450 W in the first 20 min of the pause.
std::vector<LogRow> inverter_that_pauses(bool heats, double fast_watt = 95.0, double row_second = 60.0) {
  std::vector<LogRow> rows;
  double watt = 40.0;
  for (double second = 0.0; second < 4.0 * 86400.0; second += row_second) {
    const double since_minutes = std::fmod(second / 60.0 + 240.0, 600.0);
    const double behind_minutes = since_minutes - 35.0;
    const double speeds_up = std::min(1.0, 0.4 + 0.06 * behind_minutes);
    watt = behind_minutes < 0.0
               ? 3.0
               : 40.0 + (fast_watt - 40.0) * speeds_up * std::exp(-std::max(0.0, behind_minutes - 10.0) / 120.0);
    if (heats && since_minutes < 20.0) watt = 453.0;
    LogRow row;
    row.time_second = second;
    row.value[index_of(LogQuantity::power)] = watt * (1.0 + 0.01 * std::sin(0.37 * second));
    rows.push_back(row);
  }
  return rows;
}

// The weakest defrost heater that is shipped draws 180 W (plugins/heater/ratings).
TEST(Inverter, OfFewWattsThatCatchesUpBehindAPauseIsNoHeater) {
  for (const double row_second : {10.0, 60.0, 300.0}) {
    const LogAnalysis dead = of_log(inverter_that_pauses(false, 95.0, row_second));
    EXPECT_EQ(dead.defrost_count, 0U) << row_second;
    const std::vector<LogVerdict> verdicts = judge_log(dead, {});
    const LogVerdict* come = find_verdict(verdicts, "defrosts-come");
    EXPECT_EQ(come->text, "no-heater-seen") << row_second;
    EXPECT_TRUE(come->asks) << row_second;
    EXPECT_FALSE(asks_for_a_test(verdicts)) << row_second;
    EXPECT_EQ(of_log(inverter_that_pauses(true, 95.0, row_second)).defrost_count, 9U) << row_second;
  }
}

TEST(Inverter, HasNoRunShareWhereItsSlowRunningLooksLikeRest) {
  const LogAnalysis analysis = of_log(inverter_that_pauses(true));
  EXPECT_FALSE(analysis.run_share && *analysis.run_share < 0.9);
}

TEST(LongCycles, HideNoDefrostAndMakeNone) {
  EventTally tally;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    SimulatedPlan plan = power_only();
    plan.spacing_second = 60.0;
    plan.averages = true;
    plan.period_second = 9000.0 + 800.0 * static_cast<double>(seed);
    plan.duty = 0.25 + 0.02 * static_cast<double>(seed);
    const SimulatedLog log = simulate(plan, seed);
    tally.add(log, analysed(log), seed);
  }
  EXPECT_GT(tally.expected, 80U);
  EXPECT_EQ(tally.recall(), 1.0) << tally.misses;
  EXPECT_EQ(tally.precision(), 1.0) << tally.misses;
}

/// Means over five minutes: a heater's few minutes every eight hours fill a part of a row.
TEST(RowsFarApart, TellOfHeatingThatIsTooShortToShow) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 4 * 288; ++i) {
    const double cools = i % 16 < 5 ? 92.0 : 3.0;
    LogRow row;
    row.time_second = 300.0 * i;
    row.value[index_of(LogQuantity::power)] = i % 96 == 40 ? 170.0 + 30.0 * (i / 96 % 5) : cools;
    rows.push_back(row);
  }
  const LogAnalysis analysis = of_log(rows);
  EXPECT_EQ(analysis.defrost_count, 0U);
  EXPECT_GE(analysis.short_stand_outs, 10U);
}

/// Rows of five minutes, a compressor that never rests, and an ice maker's heater over two of them by the way.
TEST(IceMaker, IsNoDefrostWhereTheHeaterWarmsAndItDoesNot) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 8 * 288; ++i) {
    const int since = i % 288 - 40;
    const bool heats = since >= 0 && since < 3;
    const bool drips = since == 3;
    const bool makes_ice = i == 1500 || i == 1501;
    LogRow row;
    row.time_second = 300.0 * i;
    row.value[index_of(LogQuantity::power)] = heats       ? 203.0
                                              : drips     ? 3.0
                                              : makes_ice ? 205.0
                                                          : 60.0 + 20.0 * std::sin(i);
    row.value[index_of(LogQuantity::coil_temperature)] =
        heats   ? 268.0 + 7.5 * since
        : drips ? 280.0
                : 246.0 + 20.0 * std::exp(-(since < 0 ? 100 : since - 4) / 2.0);
    rows.push_back(row);
  }
  const LogAnalysis analysis = of_log(rows);
  EXPECT_EQ(analysis.defrost_count, 8U);
  for (const Defrost& one : analysis.defrosts) EXPECT_TRUE(one.rise_is_seen) << one.start_second;
}

/// Three days of rows of a minute: 450 W for ten minutes each `every_hour`, ten minutes of rest behind it, else cycles
/// of 120 W; the coil of a freezer thaws with it.
std::vector<LogRow> defrosts_every(double every_hour, bool with_coil) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 3 * 1440; ++i) {
    const int since = i % static_cast<int>(60.0 * every_hour);
    const bool heats = since < 10;
    const bool rests = since < 20 || i % 50 >= 25;
    LogRow row;
    row.time_second = 60.0 * i;
    row.value[index_of(LogQuantity::power)] = heats ? 450.0 + i % 3 : rests ? 2.0 : 120.0 + i % 5;
    if (with_coil)
      row.value[index_of(LogQuantity::coil_temperature)] =
          heats ? 253.0 + 3.3 * since : std::max(249.0 + 2.0 * std::sin(0.12 * i), 286.0 - 3.0 * (since - 10));
    rows.push_back(row);
  }
  return rows;
}

TEST(TooFrequent, HeatingsAreCountedWhereNoneIsToldAsADefrost) {
  const LogAnalysis often = of_log(defrosts_every(2.0, false));
  EXPECT_EQ(often.defrost_count, 0U);
  EXPECT_GE(often.frequent_heatings, 34U);
  for (const bool with_coil : {true, false}) {
    const LogAnalysis analysis = of_log(defrosts_every(2.0, with_coil));
    EXPECT_TRUE(leaves_a_question(analysis, judge_log(analysis, {}))) << with_coil;
  }
  EXPECT_EQ(of_log(defrosts_every(8.0, false)).frequent_heatings, 0U);
  // A freezer in a cold room, whose compressor runs for a tenth of the time above a lamp's few watts.
  std::vector<LogRow> rows;
  for (int i = 0; i < 2 * 1440; ++i) {
    rows.push_back({});
    rows.back().time_second = 60.0 * i;
    rows.back().value[index_of(LogQuantity::power)] = i % 60 < 6 ? 90.0 + i % 3 : 2.0;
  }
  EXPECT_EQ(of_log(rows).frequent_heatings, 0U);
}

/// Rows of two minutes: 181 W for 22 to 26 minutes, a row of drip time, and then a compressor that starts with as much
/// and falls to 147 W.
TEST(RowsOfMinutes, OneRowBelowTheHeatersLevelEndsAHeating) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 4 * 720; ++i) {
    const int since = i % 240 - 100;
    const int heated = 11 + i / 240 % 3;
    const int run = since < 0 || since > 50 ? i % 25 : since - heated - 1;
    LogRow row;
    row.time_second = 120.0 * i;
    double watt = run >= 0 && run < 12 ? 147.0 + 37.0 * std::exp(-0.6 * run) : 1.5;
    double coil = 247.0 + (run < 12 ? 3.0 - 0.25 * run : 0.25 * (run - 12));
    if (since >= 0 && since < heated) {
      watt = 181.5;
      coil = since < 6 ? 250.0 + 4.0 * since : 273.2 + 5.0 * (since - 6) / (heated - 6);
    } else if (since == heated) {
      watt = 9.0;
      coil = 278.0;
    } else if (run >= 0 && run < 5 && since > 0 && since < 50) {
      coil = 247.0 + 12.0 * std::exp(-0.8 * run);
    }
    row.value[index_of(LogQuantity::power)] = watt;
    row.value[index_of(LogQuantity::coil_temperature)] = coil;
    rows.push_back(row);
  }
  const LogAnalysis analysis = of_log(rows);
  EXPECT_EQ(analysis.defrost_count, 12U);
  for (const Defrost& one : analysis.defrosts) EXPECT_LE(one.end_second - one.start_second, 1680.0) << one.start_second;
}

TEST(RowsFarApart, TellNeitherATimeLimitNorCycles) {
  SimulatedPlan plan = plain_plan();
  plan.has_power = false;
  plan.spacing_second = 900.0;
  plan.days = 12.0;
  const SimulatedLog log = simulate(plan, 5);
  const LogAnalysis analysis = analysed(log);
  EXPECT_GT(analysis.defrost_count, 8U);
  for (const Defrost& one : analysis.defrosts) EXPECT_NE(one.cause, EndCause::time_limit) << one.start_second;
}

}  // namespace
}  // namespace ohmwright::cycles
