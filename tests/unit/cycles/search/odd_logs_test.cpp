#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "analysed.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

LogRow row_of(double second, double watt, double kelvin = LogRow::none) {
  LogRow row;
  row.time_second = second;
  row.value[index_of(LogQuantity::power)] = watt;
  row.value[index_of(LogQuantity::coil_temperature)] = kelvin;
  return row;
}

// A probe that died: the heater is seen to the end, and nothing is told from the value at which the coil stands.
TEST(OddLogs, CoilThatStandsAtOneValueTellsNothingOfDefrosts) {
  SimulatedLog log = simulate(plain_plan(), 3);
  const double from = 0.4 * log.rows.back().time_second;
  for (LogRow& row : log.rows)
    if (row.time_second > from) row.value[index_of(LogQuantity::coil_temperature)] = 273.15 + 3.2;
  const LogAnalysis analysis = of_rows(log.rows);
  EXPECT_TRUE(says(analysis, "column-never-moved"));
  std::size_t after = 0;
  for (const Defrost& one : analysis.defrosts) {
    EXPECT_TRUE(one.has_coil || one.end_second >= from);
    if (one.start_second < from) continue;
    ++after;
    EXPECT_FALSE(one.has_coil || one.rise_is_seen || one.end_kelvin.has_value() || one.frost.has_value());
    EXPECT_EQ(one.plateau_second, 0.0);
    EXPECT_EQ(one.cause, EndCause::unknown);
  }
  EXPECT_GE(after, 3U);
}

// A door that stands open for an hour between two defrosts warms the coil slowly, and past the melting point.
TEST(OddLogs, DoorLeftOpenIsNoDefrostOfTheCoilAlone) {
  SimulatedPlan plan = plain_plan();
  plan.has_power = false;
  plan.days = 4.0;
  SimulatedLog log = simulate(plan, 3);
  ASSERT_GE(log.defrosts.size(), 5U);
  const std::size_t as_it_is = analysed(log).defrosts.size();
  const double from = 0.5 * (log.defrosts[2].end_second + log.defrosts[3].start_second);
  for (LogRow& row : log.rows) {
    const double since = (row.time_second - from) / 3600.0;
    if (since <= 0.0 || since >= 1.25) continue;
    double& kelvin = row.value[index_of(LogQuantity::coil_temperature)];
    kelvin = std::max(kelvin, melting_point_kelvin - 22.0 + 26.0 * (since < 1.0 ? since : 5.0 - 4.0 * since));
  }
  const LogAnalysis analysis = analysed(log);
  EXPECT_EQ(analysis.defrosts.size(), as_it_is);
  EXPECT_GE(analysis.door_count, 1U);
}

TEST(OddLogs, ColumnOfFreezingTemperaturesThatIsNotReadIsAskedAbout) {
  std::string text = "time,Probe 1,Probe 2,Watts\n";
  for (int minute = 0; minute < 600; ++minute) {
    const std::string at = "2024-03-01 " + std::string(minute / 60 < 10 ? "0" : "") + std::to_string(minute / 60) +
                           (minute % 60 < 10 ? ":0" : ":") + std::to_string(minute % 60);
    text += at + ",-18." + std::to_string(minute % 10) + ",-24." + std::to_string(minute % 7) + "," +
            (minute % 40 < 20 ? "95.5" : "2.5") + "\n";
  }
  EXPECT_TRUE(says(analysed(text), "column-may-be-coil"));
  EXPECT_FALSE(says(analysed("time,Probe 1,Watts\n" + std::string("2024-03-01 00:00:00,21.5,95.5\n") +
                             "2024-03-01 00:01:00,21.6,95.7\n2024-03-01 00:02:00,21.6,2.5\n"),
                    "column-may-be-coil"));
}

TEST(OddLogs, NoRow) {
  const LogAnalysis analysis = of_rows({});
  EXPECT_TRUE(says(analysis, "log-has-no-rows"));
  EXPECT_TRUE(analysis.defrosts.empty());
}

TEST(OddLogs, OneRow) {
  const LogAnalysis analysis = of_rows({row_of(0.0, 120.0, 250.0)});
  EXPECT_TRUE(says(analysis, "log-is-short"));
  EXPECT_EQ(analysis.defrost_count, 0U);
}

TEST(OddLogs, Zeros) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 100000; ++i) rows.push_back(row_of(10.0 * i, 0.0, 0.0 + 273.15));
  const LogAnalysis analysis = of_rows(rows);
  EXPECT_EQ(analysis.defrost_count, 0U);
  EXPECT_EQ(analysis.run_count, 0U);
  EXPECT_TRUE(says(analysis, "load-has-one-level"));
}

TEST(OddLogs, ColumnsWithoutAnyValue) {
  std::vector<LogRow> rows(1000);
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i].time_second = 60.0 * static_cast<double>(i);
  const LogAnalysis analysis = of_rows(rows);
  EXPECT_FALSE(analysis.has_load);
  EXPECT_TRUE(says(analysis, "no-temperature-in-log"));
}

TEST(OddLogs, RowsOfOneTimeOnly) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 1000; ++i) rows.push_back(row_of(0.0, 100.0 + i % 3));
  EXPECT_EQ(of_rows(rows).defrost_count, 0U);
}

TEST(OddLogs, GapsAreMeasuredAndWhatTheyHideIsSaid) {
  SimulatedLog log = simulate(plain_plan(), 3);
  // A day whose nights are missing.
  std::erase_if(log.rows, [](const LogRow& row) { return std::fmod(row.time_second, 86400.0) > 52000.0; });
  const LogAnalysis analysis = analysed(log);
  EXPECT_EQ(analysis.coverage.gaps, 5U);
  EXPECT_NEAR(analysis.coverage.longest_gap.second, 34400.0, 20.0);
  const LogFinding* finding = find_finding(analysis.findings, "gaps-can-hide-defrosts");
  ASSERT_NE(finding, nullptr);
  EXPECT_NEAR(*finding->number("share"), 5.0 * 34400.0 / (5.0 * 86400.0 + 52000.0), 0.002);
  double hidden = 0.0;
  for (const Defrost& one : analysis.defrosts) hidden += one.gap_in_interval_second;
  EXPECT_GT(hidden, 3.0 * 34400.0);
}

TEST(OddLogs, MissingMinutesDoNotPartADefrost) {
  SimulatedPlan plan = plain_plan();
  plan.spacing_second = 60.0;
  SimulatedLog log = simulate(plan, 3);
  const TrueDefrost truth = log.defrosts[2];
  std::erase_if(log.rows, [&](const LogRow& row) {
    return row.time_second > truth.start_second + 240.0 && row.time_second < truth.start_second + 430.0;
  });
  const LogAnalysis analysis = analysed(log);
  ASSERT_EQ(analysis.defrosts.size(), log.defrosts.size());
  EXPECT_NEAR(analysis.defrosts[2].start_second, truth.start_second, 60.0);
  EXPECT_NEAR(analysis.defrosts[2].end_second, truth.end_second, 60.0);
}

TEST(OddLogs, ATimeColumnThatStepsASecondForARowAMinuteIsAskedAbout) {
  SimulatedPlan plan = plain_plan();
  plan.spacing_second = 60.0;
  SimulatedLog log = simulate(plan, 3);
  for (std::size_t i = 0; i < log.rows.size(); ++i) log.rows[i].time_second = static_cast<double>(i);
  const LogAnalysis analysis = analysed(log);
  const LogFinding* finding = find_finding(analysis.findings, "time-step-implausible");
  ASSERT_NE(finding, nullptr);
  EXPECT_TRUE(finding->asks);
  EXPECT_EQ(analysis.defrost_count, 0U);
}

TEST(OddLogs, CutAtAnyByteGiveAnAnswerOrARefusal) {
  SimulatedPlan plan = plain_plan();
  plan.days = 1.0;
  plan.spacing_second = 300.0;
  const std::string text = as_text(simulate(plan, 3));
  for (std::size_t bytes = 0; bytes < text.size(); bytes += 1 + bytes / 40) {
    try {
      EXPECT_LE(analysed(std::string_view(text).substr(0, bytes)).defrosts.size(), 3U);
    } catch (const InputError&) {
      EXPECT_LT(bytes, 70U);
    }
  }
}

/// Takes the cells of a column away from a share of the log on.
SimulatedLog without_column(SimulatedLog log, LogQuantity quantity, double from_share) {
  const double from = from_share * log.rows.back().time_second;
  for (LogRow& row : log.rows)
    if (row.time_second >= from) row.value[index_of(quantity)] = LogRow::none;
  return log;
}

TEST(Holes, InTheColumnOfTheCoilSayNothingOfIt) {
  const SimulatedLog whole = simulate(plain_plan(), 3);
  const LogAnalysis analysis = analysed(without_column(whole, LogQuantity::coil_temperature, 0.45));
  const LogFinding* hole = find_finding(analysis.findings, "column-has-holes");
  ASSERT_NE(hole, nullptr);
  EXPECT_EQ(hole->text("quantity"), "coil_temperature");
  EXPECT_NEAR(*hole->number("share"), 0.55, 0.01);
  EXPECT_EQ(analysis.defrosts.size(), whole.defrosts.size());  // the load shows them
  EXPECT_FALSE(says(analysis, "heat-without-rise"));
  for (const Defrost& one : analysis.defrosts) {
    const bool is_logged = one.start_second < 0.45 * whole.rows.back().time_second;
    EXPECT_EQ(one.has_coil, is_logged);
    EXPECT_EQ(one.peak_kelvin.has_value(), is_logged);
    EXPECT_TRUE(one.has_load);
  }
  EXPECT_EQ(analysis.coverage.hidden_share, 0.0);
}

TEST(Holes, InTheColumnOfThePowerMakeNoEnergyAndNoRunsUp) {
  const SimulatedLog whole = simulate(plain_plan(), 3);
  const LogAnalysis all = analysed(whole);
  const LogAnalysis analysis = analysed(without_column(whole, LogQuantity::power, 0.5));
  EXPECT_EQ(analysis.defrosts.size(), whole.defrosts.size());  // the coil shows them
  const double half = 0.5 * whole.rows.back().time_second;
  for (const Defrost& one : analysis.defrosts) {
    EXPECT_EQ(one.has_load, one.start_second < half);
    EXPECT_EQ(one.heater_is_seen, one.start_second < half);
    EXPECT_TRUE(one.has_load || !one.frost.has_value());
    EXPECT_TRUE(one.has_load || !one.interval_running_second.has_value());
  }
  EXPECT_FALSE(says(analysis, "rise-without-heater"));
  EXPECT_NEAR(analysis.energy_joule, 0.5 * all.energy_joule, 0.06 * all.energy_joule);
  EXPECT_NEAR(*analysis.run_share, *all.run_share, 0.03);
  // Carried on for a minute, told to a slot of twenty seconds.
  EXPECT_NEAR(analysis.coverage.logged_second[index_of(LogQuantity::power)], half, 60.0 + 20.0);
}

TEST(Holes, OfAFewMinutesAreCarriedOver) {
  SimulatedLog log = simulate(plain_plan(), 3);
  for (std::size_t i = 0; i < log.rows.size(); ++i)
    if (i % 6 != 0) log.rows[i].value[index_of(LogQuantity::coil_temperature)] = LogRow::none;  // each minute
  EXPECT_FALSE(says(analysed(log), "column-has-holes"));
}

TEST(Standstill, IsATimeInWhichNothingRuns) {
  SimulatedLog log = simulate(plain_plan(), 3);
  EXPECT_FALSE(analysed(log).standstill.has_value());
  const double off = 0.4 * log.rows.back().time_second;
  for (LogRow& row : log.rows) {
    if (row.time_second < off) continue;
    row.value[index_of(LogQuantity::power)] = 0.0;
    row.value[index_of(LogQuantity::coil_temperature)] = 294.15 + 0.1 * std::sin(row.time_second);
  }
  const LogAnalysis analysis = analysed(log);
  ASSERT_TRUE(analysis.standstill.has_value());
  EXPECT_NEAR(analysis.standstill->start_second, off, 3.0 * 3600.0);
  EXPECT_NEAR(*analysis.standstill->kelvin, 294.15, 0.5);
}

/// A freezer without a heater: half an hour in six, its load falling from 130 W to 105 W.
TEST(OneLevel, ThatFallsWhileItRunsIsNotTakenForAHeater) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 5 * 288; ++i) {
    const double into = std::fmod(300.0 * i, 6.0 * 3600.0);
    rows.push_back(row_of(300.0 * i, into < 1800.0 ? 105.0 + 25.0 * (1.0 - into / 1800.0) : 2.0 + std::fmod(i, 3.0)));
  }
  const LogAnalysis analysis = of_rows(rows);
  EXPECT_TRUE(analysis.defrosts.empty() || analysis.heats_at_only_level);
}

TEST(Columns, ThatNeverMoveSayNothing) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 4 * 1440; ++i) rows.push_back(row_of(60.0 * i, 0.0, 273.15));
  const LogAnalysis analysis = of_rows(rows);
  EXPECT_TRUE(says(analysis, "column-never-moved"));
  EXPECT_FALSE(analysis.has_load);
  EXPECT_FALSE(analysis.has_coil);
}

TEST(Temperatures, ThatChangeFasterThanACoilCanAreAskedAbout) {
  SimulatedPlan plan = plain_plan();
  plan.spacing_second = 60.0;
  SimulatedLog log = simulate(plan, 3);
  EXPECT_FALSE(says(analysed(log), "temperature-changes-implausible"));
  for (std::size_t i = 0; i < log.rows.size(); ++i) {
    log.rows[i].time_second = static_cast<double>(i);
    log.rows[i].value[index_of(LogQuantity::power)] = LogRow::none;
  }
  EXPECT_TRUE(says(analysed(log), "temperature-changes-implausible"));
}

// Streamed in blocks, as a reader gives them: a year of seconds is 31.5 million rows.
TEST(OddLogs, AYearOfSeconds) {
  LogAnalyser analyser;
  std::vector<LogRow> block(4096);
  constexpr double year = 365.0 * 86400.0;
  constexpr double interval = 12.0 * 3600.0;
  for (double second = 0.0; second < year;) {
    for (LogRow& row : block) {
      const double into = std::fmod(second, interval);
      const bool heats = into < 1200.0;
      const bool runs = into > 1620.0 && (into < 6000.0 || std::fmod(into, 3000.0) < 1200.0);
      row = row_of(second, heats ? 350.0 : (runs ? 110.0 : 4.0));
      second += 1.0;
    }
    analyser.take(block);
  }
  const LogAnalysis analysis = analyser.finish();
  EXPECT_NEAR(static_cast<double>(analysis.defrost_count), 730.0, 1.0);
  std::size_t regular = 0;
  for (const Defrost& one : analysis.defrosts)
    regular += one.interval_second && std::abs(*one.interval_second - interval) < 40.0 ? 1U : 0U;
  EXPECT_GE(regular, 728U);  // none is lost or told twice where two windows meet
}

/// The log as a table without units, the coil in degF.
std::string in_fahrenheit_without_unit(const SimulatedLog& log) {
  std::string text = "time,Coil,Power\n";
  for (std::size_t i = 0; i < log.rows.size(); i += 6) {
    const LogRow& row = log.rows[i];
    const double kelvin = row.value[index_of(LogQuantity::coil_temperature)];
    const double fahrenheit = (kelvin - melting_point_kelvin) * 9.0 / 5.0 + 32.0;
    text += std::to_string(row.time_second) + "," + std::to_string(fahrenheit) + "," +
            std::to_string(row.value[index_of(LogQuantity::power)]) + "\n";
  }
  return text;
}

// Whoever analyses what a reader read has the guessed unit doubted, whatever program that is.
TEST(GuessedUnit, IsDoubtedByTheAnalysisItself) {
  const LogAnalysis log = analysed(in_fahrenheit_without_unit(simulate(plain_plan(), 3)));
  EXPECT_GE(log.defrost_count, 8U);
  EXPECT_TRUE(says(log, "unit-guess-contradicted"));
  EXPECT_TRUE(log.unit_in_doubt[index_of(LogQuantity::coil_temperature)]);
}

}  // namespace
}  // namespace ohmwright::cycles
