// Open logs of real appliances. Expected counts were made by a script (60 s median, thresholds), not by the people who
// recorded the logs: strong evidence, not ground truth.
#include <cstdlib>
#include <optional>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>

namespace ohmwright::cycles {
namespace {

struct OpenLog {
  LogAnalysis analysis;
  LogTroubles troubles;
  double least = 1e9;
  double most = -1e9;
};

OpenLog analysed(const std::string& path, LogQuantity quantity) {
  LogReader reader(open_log(path));
  LogAnalyser analyser;
  OpenLog log;
  for (std::span<const LogRow> rows = reader.next(); !rows.empty(); rows = reader.next()) {
    analyser.take(rows);
    for (const LogRow& row : rows) {
      log.least = std::min(log.least, row.value[index_of(quantity)]);
      log.most = std::max(log.most, row.value[index_of(quantity)]);
    }
  }
  log.analysis = analyser.finish();
  log.troubles = reader.troubles();
  return log;
}

struct Expected {
  const char* file;
  std::uint64_t runs;
  double typical_minutes;
  double load_watt;  ///< 0: not counted
};

class PowerLogs : public ::testing::TestWithParam<Expected> {};

// Household power data of the tracebase set (areinhardt/tracebase), ODbL 1.0: contains information from the tracebase
// data set, made available under the Open Database License.
TEST_P(PowerLogs, HaveTheirRunsAndNoDefrost) {
  const char* folder = std::getenv("OHMWRIGHT_OPEN_DATA");
  if (folder == nullptr) GTEST_SKIP() << "skipped: OHMWRIGHT_OPEN_DATA is not set";
  const Expected& expected = GetParam();
  const OpenLog log = analysed(std::string(folder) + "/power_logs/" + expected.file, LogQuantity::power);
  EXPECT_EQ(log.analysis.run_count, expected.runs);
  EXPECT_EQ(log.analysis.defrost_count, 0U);
  EXPECT_NEAR(*log.analysis.typical_run_second / 60.0, expected.typical_minutes, 0.08 * expected.typical_minutes);
  double load = 0.0;
  for (const CompressorRun& run : log.analysis.runs) load += static_cast<double>(run.mean_load);
  if (expected.load_watt > 0.0) {
    EXPECT_NEAR(load / static_cast<double>(log.analysis.run_count), expected.load_watt, 0.12 * expected.load_watt);
  }
  EXPECT_NE(find_finding(log.analysis.findings, "no-defrost-seen"), nullptr);
  EXPECT_NE(find_finding(log.analysis.findings, "log-shorter-than-an-interval"), nullptr);
}

INSTANTIATE_TEST_SUITE_P(Tracebase, PowerLogs,
                         ::testing::Values(Expected{"refrigerator_a_2012-05-15.csv", 21, 30.0, 77.0},
                                           Expected{"refrigerator_b_2011-12-17.csv", 47, 11.0, 113.0},
                                           Expected{"refrigerator_c_2011-11-29.csv", 27, 14.0, 132.0},
                                           Expected{"refrigerator_d_2012-02-01.csv", 38, 6.0, 64.0},
                                           Expected{"refrigerator_f_2011-08-11.csv", 8, 98.0, 0.0},
                                           Expected{"freezer_a_2012-01-26.csv", 29, 5.0, 0.0}),
                         [](const auto& one) {
                           return std::string(one.param.file).substr(0, one.param.file[0] == 'f' ? 9 : 14);
                         });

TEST(PowerLog, HasItsDutyAndItsGaps) {
  const char* folder = std::getenv("OHMWRIGHT_OPEN_DATA");
  if (folder == nullptr) GTEST_SKIP() << "skipped: OHMWRIGHT_OPEN_DATA is not set";
  const OpenLog log = analysed(std::string(folder) + "/power_logs/refrigerator_a_2012-05-15.csv", LogQuantity::power);
  EXPECT_NEAR(*log.analysis.run_share, 0.44, 0.01);
  EXPECT_EQ(log.analysis.coverage.gaps, 6U);
  const OpenLog twice = analysed(std::string(folder) + "/power_logs/refrigerator_f_2011-08-11.csv", LogQuantity::power);
  EXPECT_NEAR(static_cast<double>(twice.troubles.of(LogTrouble::repeated_time).count), 0.45 * 152725, 0.05 * 152725);
}

// Air in a freezer and a refrigerator, 24 h, rows 5 s to 100 min apart (pbielefeldt/ruuvi-plots, MPL-2.0).
TEST(TemperatureLogs, HaveTheirRangeAndSayThatADefrostCannotBeRuledOut) {
  const char* folder = std::getenv("OHMWRIGHT_OPEN_DATA");
  if (folder == nullptr) GTEST_SKIP() << "skipped: OHMWRIGHT_OPEN_DATA is not set";
  struct Range {
    const char* file;
    double least;
    double most;
  };
  for (const Range& range :
       {Range{"ruuvi_freezer_24h_raw.csv", -31.1, -24.5}, Range{"ruuvi_fridge_24h_raw.csv", 0.4, 3.9}}) {
    const OpenLog log =
        analysed(std::string(folder) + "/temperature_logs/" + range.file, LogQuantity::cabinet_temperature);
    EXPECT_NEAR(log.least - 273.15, range.least, 0.05) << range.file;
    EXPECT_NEAR(log.most - 273.15, range.most, 0.05) << range.file;
    EXPECT_GT(log.analysis.run_count, 5U) << range.file;
    EXPECT_EQ(log.analysis.defrost_count, 0U) << range.file;
    const LogFinding* hidden = find_finding(log.analysis.findings, "gaps-can-hide-defrosts");
    ASSERT_NE(hidden, nullptr) << range.file;
    EXPECT_GT(*hidden->number("share"), 0.2) << range.file;
    EXPECT_GT(*hidden->number("longest_second"), 3600.0) << range.file;
  }
}

}  // namespace
}  // namespace ohmwright::cycles
