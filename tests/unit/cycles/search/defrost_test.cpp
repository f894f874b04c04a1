#include <cmath>
#include <functional>

#include <gtest/gtest.h>

#include "analysed.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

TEST(Defrost, HasItsPhases) {
  const SimulatedLog log = simulate(plain_plan(), 3);
  const LogAnalysis analysis = analysed(log);
  ASSERT_EQ(analysis.defrosts.size(), log.defrosts.size());
  for (std::size_t i = 0; i + 1 < log.defrosts.size(); ++i) {
    const Defrost& found = analysis.defrosts[i];
    const TrueDefrost& truth = log.defrosts[i];
    EXPECT_NEAR(found.start_second, truth.start_second, 20.0);
    EXPECT_NEAR(found.end_second, truth.end_second, 20.0);
    EXPECT_TRUE(found.heater_is_seen);
    EXPECT_TRUE(found.rise_is_seen);
    EXPECT_FALSE(found.is_cut);
    EXPECT_NEAR(found.heater_load, 353.0, 5.0);  // heater and standby
    EXPECT_NEAR(found.energy_joule, 353.0 * (truth.end_second - truth.start_second), 353.0 * 40.0);
    EXPECT_NEAR(found.plateau_kelvin, melting_point_kelvin, 0.3);
    EXPECT_NEAR(found.plateau_second, truth.plateau_second, 45.0);
    EXPECT_NEAR(*found.end_kelvin, melting_point_kelvin + log.plan.end_celsius, 1.5);
    EXPECT_NEAR(*found.drip_second, log.plan.drip_second, 30.0);
    EXPECT_GT(*found.recovery_second, 1800.0);
    EXPECT_EQ(found.cause, EndCause::temperature);
    ASSERT_TRUE(found.frost);
    // m = share · P · t / L, GUM 5.1.2 (see tests/outside/cycles)
    EXPECT_NEAR(found.frost->kilogram, 0.6 * found.heater_load * found.plateau_second / 333.55e3, 1e-9);
    if (i == 0) continue;
    EXPECT_NEAR(*found.interval_second, truth.start_second - log.defrosts[i - 1].start_second, 40.0);
    EXPECT_LT(*found.interval_running_second, 0.6 * *found.interval_second);
    EXPECT_GT(*found.interval_running_second, 0.3 * *found.interval_second);
  }
  EXPECT_TRUE(says(analysis, "melting-share-assumed"));
}

TEST(Defrost, EndsByTheRatedTemperatureOrTheRatedTime) {
  SimulatedPlan plan = plain_plan();
  plan.days = 1.5;
  const SimulatedLog warm = simulate(plan, 5);
  LogRatings ratings;
  ratings.end_temperature_kelvin = 273.15 + 10.0;
  ratings.time_limit_second = 1800.0;
  for (const Defrost& one : analysed(warm, ratings).defrosts) {
    EXPECT_EQ(one.cause, EndCause::temperature);
    EXPECT_EQ(one.ground, EndGround::rated_temperature);
  }
  plan.time_limit_second = 900.0;
  plan.melt_spread = 0.05;
  ratings.time_limit_second = 900.0;
  const SimulatedLog late = simulate(plan, 5);
  for (const Defrost& one : analysed(late, ratings).defrosts) EXPECT_EQ(one.cause, EndCause::time_limit);
  plan.has_coil = false;
  const SimulatedLog power_alone = simulate(plan, 5);
  for (const Defrost& one : analysed(power_alone, ratings).defrosts) {
    EXPECT_EQ(one.cause, EndCause::time_limit);
    EXPECT_EQ(one.ground, EndGround::rated_time);
  }
}

TEST(Defrost, WithOneLogOfPowerAloneAndNoRatingsHasNoKnownEnd) {
  SimulatedPlan plan = plain_plan();
  plan.days = 1.0;
  plan.has_coil = false;
  const LogAnalysis analysis = analysed(simulate(plan, 5));
  ASSERT_FALSE(analysis.defrosts.empty());
  ASSERT_LT(analysis.defrosts.size(), 3U);
  for (const Defrost& one : analysis.defrosts) {
    EXPECT_EQ(one.cause, EndCause::unknown);
    EXPECT_EQ(one.ground, EndGround::nothing);
  }
}

TEST(Defrost, HeatWithoutRiseIsSaid) {
  const SimulatedLog log = simulate(plain_plan(), 3);
  SimulatedLog cold = log;
  for (LogRow& row : cold.rows)
    row.value[index_of(LogQuantity::coil_temperature)] = 253.15 + 0.1 * std::sin(row.time_second);
  const LogAnalysis analysis = analysed(cold);
  ASSERT_EQ(analysis.defrosts.size(), log.defrosts.size());
  for (const Defrost& one : analysis.defrosts) {
    EXPECT_TRUE(one.has_coil);
    EXPECT_FALSE(one.rise_is_seen);
  }
  EXPECT_TRUE(says(analysis, "heat-without-rise"));
}

TEST(Defrost, RiseWithoutHeaterIsSaid) {
  SimulatedLog log = simulate(plain_plan(), 3);
  for (LogRow& row : log.rows) {
    double& watt = row.value[index_of(LogQuantity::power)];
    if (watt > 250.0) watt = 3.0;  // the heater does not draw
  }
  const LogAnalysis analysis = analysed(log);
  ASSERT_EQ(analysis.defrosts.size(), log.defrosts.size());
  for (const Defrost& one : analysis.defrosts) EXPECT_FALSE(one.heater_is_seen);
  EXPECT_TRUE(says(analysis, "rise-without-heater"));
}

TEST(Defrost, HeaterWeakerThanTheCompressorIsFoundByTheCoil) {
  SimulatedPlan plan = plain_plan();
  plan.running_watt = 200.0;
  plan.heater_watt = 180.0;
  const SimulatedLog log = simulate(plan, 9);
  const LogAnalysis analysis = analysed(log);
  ASSERT_EQ(analysis.defrosts.size(), log.defrosts.size());
  for (std::size_t i = 0; i < log.defrosts.size(); ++i) {
    EXPECT_TRUE(analysis.defrosts[i].heater_is_seen);
    EXPECT_NEAR(analysis.defrosts[i].start_second, log.defrosts[i].start_second, 400.0);
    EXPECT_NEAR(analysis.defrosts[i].end_second, log.defrosts[i].end_second, 40.0);
  }
}

TEST(Defrost, OfACurrentIsTheSameAsOfItsPower) {
  const SimulatedLog log = simulate(plain_plan(), 3);
  SimulatedLog clamp = log;
  for (LogRow& row : clamp.rows) {
    row.value[index_of(LogQuantity::current)] = row.value[index_of(LogQuantity::power)] / 230.0;
    row.value[index_of(LogQuantity::power)] = LogRow::none;
  }
  const LogAnalysis amperes = analysed(clamp);
  EXPECT_TRUE(amperes.load_is_current);
  EXPECT_TRUE(says(amperes, "current-without-line-voltage"));
  ASSERT_EQ(amperes.defrosts.size(), log.defrosts.size());
  EXPECT_FALSE(amperes.defrosts.front().frost);
  LogRatings ratings;
  ratings.line_volt = 230.0;
  const LogAnalysis watts = analysed(clamp, ratings);
  EXPECT_FALSE(watts.load_is_current);
  EXPECT_NEAR(watts.defrosts.front().heater_load, 353.0, 5.0);
}

TEST(Defrost, ShowsInTheCabinetAlone) {
  SimulatedPlan plan = plain_plan();
  plan.has_power = false;
  plan.has_coil = false;
  plan.has_cabinet = true;
  plan.spacing_second = 60.0;
  const SimulatedLog log = simulate(plan, 4);
  const LogAnalysis analysis = analysed(log);
  EXPECT_EQ(analysis.defrosts.size(), log.defrosts.size());
}

TEST(Compressor, ThatNeverStopsIsToldFromItsDripTimes) {
  SimulatedPlan plan = plain_plan();
  plan.never_stops = true;
  const LogAnalysis analysis = analysed(simulate(plan, 3));
  EXPECT_TRUE(analysis.never_stops);
  EXPECT_GT(*analysis.run_share, 0.97);
  EXPECT_GT(analysis.defrosts.size(), 8U);
}

/// Five days of a load alone, a row a minute: each ten hours a heater of 400 W for 16 minutes and a drip time of six,
/// and else what `cooling` draws, so many minutes after that.
LogAnalysis cooled_by(const std::function<double(int)>& cooling) {
  std::vector<LogRow> rows;
  for (int minute = 0; minute < 5 * 1440; ++minute) {
    const int of_interval = minute % 600;
    LogRow row;
    row.time_second = 60.0 * minute;
    row.value[index_of(LogQuantity::power)] = of_interval < 16   ? 400.0
                                              : of_interval < 22 ? 1.5
                                                                 : cooling(of_interval - 22) + 0.3 * (minute % 3);
    rows.push_back(row);
  }
  return of_rows(rows);
}

// On the warm coil behind a defrost an inverter speeds up; one speed draws a little more there.
TEST(Compressor, ThatSpeedsUpBehindDefrostsIsAnInverters) {
  const LogAnalysis inverter = cooled_by([](int minute) { return minute < 20 ? 105.0 : minute < 40 ? 75.0 : 41.0; });
  EXPECT_TRUE(inverter.never_stops);
  EXPECT_TRUE(inverter.load_is_modulated);
  const LogAnalysis one_speed = cooled_by([](int minute) { return minute < 8 ? 125.0 : 104.0; });
  EXPECT_TRUE(one_speed.never_stops);
  EXPECT_FALSE(one_speed.load_is_modulated);
}

TEST(Compressor, ThatRestsAtDefrostsAloneNeverStops) {
  // It stood in the log's first minutes, so that it is seen to stand and to run.
  std::vector<LogRow> rows;
  for (int minute = 0; minute < 5 * 1440; ++minute) {
    LogRow row;
    row.time_second = 60.0 * minute;
    const int of_interval = minute % 480;
    const bool stands = minute < 30 || (of_interval >= 400 && of_interval < 425);
    row.value[index_of(LogQuantity::power)] = of_interval >= 410 && of_interval < 420 ? 450.0 : stands ? 1.5 : 105.0;
    rows.push_back(row);
  }
  EXPECT_TRUE(of_rows(rows).never_stops);
  for (LogRow& row : rows)  // and one that rests once for itself
    if (row.time_second > 200.0 * 60.0 && row.time_second < 220.0 * 60.0) row.value[index_of(LogQuantity::power)] = 1.5;
  EXPECT_FALSE(of_rows(rows).never_stops);
}

// From the third day on a heater of 350 W stays on beside the compressor: the cycles before it are still the
// compressor's.
TEST(Compressor, IsToldBesideALoadThatStaysOn) {
  std::vector<LogRow> rows;
  for (int minute = 0; minute < 5 * 1440; ++minute) {
    LogRow row;
    row.time_second = 60.0 * minute;
    const double compressor = minute % 41 < 18 ? 120.0 : 1.5;
    row.value[index_of(LogQuantity::power)] = compressor + (minute > 3 * 1440 ? 350.0 : 0.0);
    rows.push_back(row);
  }
  const LogAnalysis analysis = of_rows(rows);
  ASSERT_TRUE(analysis.lasting_heat);
  EXPECT_TRUE(analysis.lasting_heat->is_sure());
  EXPECT_NEAR(analysis.lasting_heat->start_second, 3.0 * 86400.0, 3600.0);
  EXPECT_GT(analysis.run_count, 90U);
}

// A heater that is open: after the pause in which it should heat the inverter speeds up, and fades as the coil gets
// cold.
TEST(Heater, IsNotThePullDownBehindAPause) {
  std::vector<LogRow> rows;
  for (int minute = 0; minute < 7 * 1440; ++minute) {
    LogRow row;
    row.time_second = 60.0 * minute;
    const int of_interval = minute % 1200;
    const double pull_down = of_interval < 72 ? 118.0 - 0.4 * (of_interval - 57) : 112.0 - 3.0 * (of_interval - 72);
    row.value[index_of(LogQuantity::power)] = of_interval < 57 ? 1.5 : std::max(43.0, pull_down) + 0.2 * (minute % 3);
    rows.push_back(row);
  }
  EXPECT_EQ(of_rows(rows).defrosts.size(), 0U);
}

TEST(Compressor, WhoseLoadNeverChangesCannotBeTold) {
  SimulatedPlan plan = plain_plan();
  plan.never_stops = true;
  plan.interval_hour = 1000.0;
  plan.has_coil = false;
  plan.days = 2.0;
  SimulatedLog log = simulate(plan, 3);
  std::erase_if(log.rows, [](const LogRow& row) { return row.time_second < 7200.0; });
  const LogAnalysis analysis = analysed(log);
  EXPECT_TRUE(says(analysis, "load-has-one-level"));
  EXPECT_FALSE(analysis.run_share);
}

TEST(Doors, AreToldFromDefrosts) {
  SimulatedPlan plan = plain_plan();
  plan.has_doors = true;
  plan.has_cabinet = true;
  plan.kelvin_noise = 0.03;
  const SimulatedLog log = simulate(plan, 3);
  const LogAnalysis analysis = analysed(log);
  EXPECT_EQ(analysis.defrosts.size(), log.defrosts.size());
  std::size_t real = 0;
  for (const DoorOpening& door : analysis.doors)
    for (const double second : log.doors) real += std::abs(door.start_second - second) < 120.0 ? 1U : 0U;
  EXPECT_GE(real * 100, analysis.doors.size() * 97);
  EXPECT_GE(real * 100, log.doors.size() * 75);  // half a minute of a door can be less than a cycle's own swing
}

}  // namespace
}  // namespace ohmwright::cycles
