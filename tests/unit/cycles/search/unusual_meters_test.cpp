// Logs of meters and appliances that are out of the common: values written on change only, a heater of two steps, hot
// gas, rows a quarter of an hour apart. The events are those that the log was made of.
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

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
