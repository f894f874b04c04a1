// When rows were: clocks that are set, lost or wrong, and rows that run backwards.
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "read_log.hpp"

namespace ohmwright::cycles {
namespace {

using ::testing::ElementsAre;
using testing_support::power;
using testing_support::read_log;
using testing_support::ReadLog;

using Lines = std::vector<std::uint64_t>;

std::string timed_rows(const std::string& rows) { return "time,cabinet_temperature [degC],power [W]\n" + rows; }

TEST(RowTimes, EndOfSummerTime) {
  const ReadLog log = read_log(
      timed_rows("2024-10-27 02:58:00,-18.5,100\n2024-10-27 02:59:00,-18.5,100\n2024-10-27 02:00:00,-18.5,100\n"
                 "2024-10-27 02:01:00,-18.5,100\n"));
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0, 180.0));
  EXPECT_EQ(log.troubles.of(LogTrouble::clock_set_back).first_lines, Lines{4});
}

TEST(RowTimes, TheClockSetBackLeavesTheStartWhereItWas) {
  const ReadLog log = read_log(timed_rows("2024-10-27 02:59:00,-18.5,100\n2024-10-27 02:00:00,-18.5,100\n"));
  // 2024-10-27 02:59 as POSIX time: `date -u -d '2024-10-27 02:59' +%s`.
  EXPECT_EQ(log.start_second, 1729997940.0);
}

// In 2024 the European Union set its clocks forward on 31 March (Directive 2000/84/EC), the United States on 10 March
// (15 U.S.C. 260a).
TEST(RowTimes, BeginOfSummerTime) {
  for (const char* day : {"2024-03-31", "2024-03-10"}) {
    const std::string date = day;
    const ReadLog log = read_log(timed_rows(date + " 01:58:00,-18.5,100\n" + date + " 01:59:00,-18.5,100\n" + date +
                                            " 03:00:00,-18.5,100\n" + date + " 03:01:00,-18.5,100\n"));
    EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0, 180.0)) << day;
    EXPECT_EQ(log.troubles.of(LogTrouble::clock_set_forward).first_lines, Lines{4}) << day;
  }
}

TEST(RowTimes, AnHourThatIsMissingIsNoSummerTime) {
  // A Wednesday; a stamp with its zone; an hour that does not begin at a full one.
  for (const char* rows : {"2024-03-27 01:58:00,-18,1\n2024-03-27 01:59:00,-18,1\n2024-03-27 03:00:00,-18,1\n",
                           "2024-03-31 01:58:00Z,-18,1\n2024-03-31 01:59:00Z,-18,1\n2024-03-31 03:00:00Z,-18,1\n",
                           "2024-03-31 01:28:00,-18,1\n2024-03-31 01:29:00,-18,1\n2024-03-31 02:30:00,-18,1\n"}) {
    const ReadLog log = read_log(timed_rows(rows));
    EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 3720.0)) << rows;
    EXPECT_EQ(log.troubles.total(), 0U) << rows;
  }
}

TEST(RowTimes, AClockThatWasLostIsCountedOn) {
  std::string rows = "2024-03-01 12:00:00,-18.5,100\n2024-03-01 12:01:00,-18.5,100\n";
  for (const char* minute : {"00", "01", "02", "03", "04", "05"})
    rows += "2000-01-01 00:" + std::string(minute) + ":00,-18.5,100\n";
  const ReadLog log = read_log(timed_rows(rows));
  // Three rows show that it runs on.
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0, 180.0, 240.0));
  EXPECT_EQ(log.troubles.of(LogTrouble::out_of_order).first_lines, (Lines{4, 5, 6}));
  EXPECT_EQ(log.troubles.of(LogTrouble::clock_began_anew).first_lines, Lines{7});
  EXPECT_TRUE(log.says("clock-began-anew"));
}

TEST(RowTimes, RowsFromTheNewestToTheOldestAreTurnedRound) {
  const std::string text = timed_rows(
      "2024-03-01 12:03:00,-15,103\n2024-03-01 12:02:00,-16,102\n2024-03-01 12:01:00,-17,101\n"
      "2024-03-01 12:00:00,-18,100");
  for (const std::size_t piece : {1U, 7U, 65536U}) {
    const ReadLog log = read_log(text, {}, piece);
    EXPECT_TRUE(log.says("rows-turned-round"));
    EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0, 180.0));
    EXPECT_EQ(log.value(0, power), 100.0);
    EXPECT_EQ(log.value(3, power), 103.0);
    EXPECT_EQ(log.troubles.total(), 0U);
  }
  std::string long_log = "time,power [W]\n";
  for (int day = 28; day > 0; --day)
    for (int minute = 1439; minute >= 0; --minute) {
      const auto two = [](int value) { return (value < 10 ? "0" : "") + std::to_string(value); };
      long_log += "2024-02-" + two(day) + " " + two(minute / 60) + ":" + two(minute % 60) + ":00," +
                  std::to_string(minute) + "\n";
    }
  const ReadLog log = read_log(long_log);
  EXPECT_EQ(log.rows.size(), 28U * 1440U);
  EXPECT_EQ(log.rows.back().time_second, (28.0 * 1440.0 - 1.0) * 60.0);
}

TEST(RowTimes, LinesOfALogThatIsTurnedRoundAreTheFilesOwn) {
  const ReadLog log = read_log(timed_rows(
      "2024-03-01 12:06:00,-15,103\n2024-03-01 12:05:00,frozen,102\n2024-03-01 12:04:00,-15,103\n"
      "2024-03-01 12:03:00,-16,102\n" +
      std::string(200000, 'x') + "\n\n2024-03-01 12:02:00,-17,101\nnever,-18,100\n2024-03-01 12:00:00,-18,100\n"));
  ASSERT_TRUE(log.says("rows-turned-round"));
  EXPECT_THAT(log.times(), ElementsAre(0.0, 120.0, 180.0, 240.0, 300.0, 360.0));
  EXPECT_EQ(log.troubles.of(LogTrouble::unreadable_value).first_lines, Lines{3});
  EXPECT_EQ(log.troubles.of(LogTrouble::line_too_long).first_lines, Lines{6});
  EXPECT_EQ(log.troubles.of(LogTrouble::unreadable_time).first_lines, Lines{9});
}

TEST(RowTimes, AFalseStampFarAheadCostsOneRow) {
  const ReadLog log = read_log(
      timed_rows("2024-03-01 12:00:00,-18.5,100\n2084-03-01 12:01:00,-18.5,100\n2024-03-01 12:02:00,-18.5,100\n"));
  EXPECT_THAT(log.times(), ElementsAre(0.0, 120.0));
  EXPECT_EQ(log.troubles.of(LogTrouble::out_of_order).first_lines, Lines{3});
  // One of the day after, as one of the next century.
  EXPECT_THAT(
      read_log(timed_rows("2024-03-01 12:00:00,-18,1\n2024-03-02 14:01:00,-18,1\n2024-03-01 12:02:00,-18,1\n")).times(),
      ElementsAre(0.0, 120.0));
  // A pause of weeks is a gap, not a false stamp.
  EXPECT_THAT(read_log(timed_rows("2024-03-01 12:00:00,-18.5,100\n2024-04-01 12:00:00,-18.5,100\n")).times(),
              ElementsAre(0.0, 31 * 86400.0));
}

// A logger that has no battery counts from 1970 until the network tells it the time.
TEST(RowTimes, AClockThatIsSetAfterTheStartIsCountedOn) {
  for (const char* rows : {"1970-01-01 00:00:05,-18,1\n1970-01-01 00:01:05,-18,1\n2024-03-01 12:02:00,-18,1\n"
                           "2024-03-01 12:03:00,-18,1\n",
                           "5000,-18,1\n65000,-18,1\n1709294520000,-18,1\n1709294580000,-18,1\n"}) {
    const ReadLog log = read_log(timed_rows(rows));
    EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0, 180.0)) << rows;
    EXPECT_EQ(log.troubles.of(LogTrouble::clock_set_ahead).first_lines, Lines{4}) << rows;
    EXPECT_EQ(log.start_second, 1709294520.0 - 120.0) << rows;  // date -u -d '2024-03-01 12:02' +%s
  }
}

TEST(RowTimes, TimesThatGoBackForLongAreAskedAbout) {
  const auto two = [](int value) { return (value < 10 ? "0" : "") + std::to_string(value); };
  std::string rows;
  for (int minute = 0; minute < 420; ++minute)  // from 6:00 to 12:59
    rows += "2024-03-01 " + two(6 + minute / 60) + ":" + two(minute % 60) + ":00,-18,1\n";
  for (int minute = 30; minute < 60; ++minute) rows += "2024-03-01 09:" + two(minute) + ":00,-18,1\n";
  const ReadLog log = read_log(timed_rows(rows));
  ASSERT_TRUE(log.asks("times-went-back"));
  const LogFinding* finding = find_finding(log.findings, "times-went-back");
  EXPECT_EQ(finding->number("line"), 422.0);
  EXPECT_EQ(finding->number("rows"), 30.0);
  EXPECT_EQ(finding->number("minutes"), 209.0);
  EXPECT_EQ(log.troubles.of(LogTrouble::out_of_order).count, 30U);
}

TEST(RowTimes, AClockOfTwelveHoursWithoutItsHalfIsAskedAbout) {
  std::string rows;
  for (int minute = 60; minute < 840; ++minute) {  // from 1:00 over 12:59 to 1:59
    const std::string number = std::to_string(minute % 60);
    rows += "3/25/2024 " + std::to_string((minute / 60 + 11) % 12 + 1) + ":" + (number.size() < 2 ? "0" : "") + number +
            ":00,-18,1\n";
  }
  const ReadLog log = read_log(timed_rows(rows));
  ASSERT_TRUE(log.asks("clock-counts-twelve-hours"));
  EXPECT_FALSE(log.says("times-went-back"));
  const LogFinding* finding = find_finding(log.findings, "clock-counts-twelve-hours");
  EXPECT_EQ(finding->number("line"), 722.0);  // the header, 720 rows of the first half day, and the next
  EXPECT_EQ(finding->number("step_second"), 60.0);
}

TEST(RowTimes, HoursThatGoOnPastADayCountFromTheStart) {
  const auto row = [](int minute) {
    const std::string number = std::to_string(minute % 60);
    return std::to_string(minute / 60) + ":" + (number.size() < 2 ? "0" : "") + number + ":00,-18.53,1\n";
  };
  std::string rows;
  for (int minute = 0; minute < 3 * 1440; minute += 1) rows += row(minute);
  const ReadLog log = read_log(timed_rows(rows));
  EXPECT_EQ(log.rows.size(), 3U * 1440U);
  EXPECT_EQ(log.rows.back().time_second, 3.0 * 86400.0 - 60.0);
  EXPECT_EQ(log.troubles.total(), 0U);
  EXPECT_FALSE(log.says("time-has-no-date"));
}

TEST(RowTimes, DaysBeforeTheHoursAreCounted) {
  for (const char* rows : {"23:59:00,-18,1\n1.00:00:00,-18,1\n1.00:01:00,-18,1\n",
                           "0 days 23:59:00,-18,1\n1 days 00:00:00,-18,1\n1 days 00:01:00,-18,1\n",
                           "23:59:00,-18,1\n\"1 day, 0:00:00\",-18,1\n\"1 day, 0:01:00\",-18,1\n"}) {
    const ReadLog log = read_log("elapsed,cabinet_temperature [degC],power [W]\n" + std::string(rows));
    EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0)) << rows;
  }
}

TEST(RowTimes, YearsOfTwoDigitsMayComeFirst) {
  for (const char* rows :
       {"24-03-05 23:59:00,-18,1\n24-03-06 00:00:00,-18,1\n", "24-03-05 12:00:00,-18,1\n24-03-05 12:01:00,-18,1\n",
        "24-03-25 23:59:00,-18,1\n24-03-26 00:00:00,-18,1\n"}) {
    const ReadLog log = read_log(timed_rows(rows));
    EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0)) << rows;
    ASSERT_TRUE(log.start_second) << rows;
    EXPECT_EQ(std::floor(*log.start_second / 86400.0 / 365.25), 54.0) << rows;  // 2024
  }
  EXPECT_THAT(read_log(timed_rows("05.03.24 23:59:00,-18,1\n06.03.24 00:00:00,-18,1\n")).times(),
              ElementsAre(0.0, 60.0));
}

TEST(RowTimes, HalvesOfTheDayInOtherWriting) {
  for (const char* half : {"p. m.", "p", "p.m.", "PM"}) {
    const ReadLog log = read_log(timed_rows("3/25/2024 11:59:00 AM,-18,1\n3/25/2024 12:00:00 " + std::string(half) +
                                            ",-18,1\n3/25/2024 1:00:00 " + half + ",-18,1\n"));
    EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 3660.0)) << half;
  }
}

}  // namespace
}  // namespace ohmwright::cycles
