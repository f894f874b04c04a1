#include <array>
#include <cmath>
#include <cstdio>
#include <functional>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "read_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;
using Lines = std::vector<std::uint64_t>;

std::string with_header(const std::string& rows) { return "time,cabinet_temperature [degC],power [W]\n" + rows; }

TEST(Troubles, AreCountedWithTheirLines) {
  const ReadLog log =
      read_log(with_header("2024-03-01 12:00:00,-18.5,100\n"
                           "2024-03-01 12:01:00,,100\n"
                           "2024-03-01 12:02:00,frozen,100\n"
                           "2024-03-01 12:03:00,-127,100\n"
                           "2024-03-01 12:04:00,-18.5,99999\n"
                           "yesterday,-18.5,100\n"
                           "2024-03-01 12:06:00,-18.5\n"
                           "2024-03-01 12:06:00,-18.5,100\n"
                           "2024-03-01 12:05:00,-18.5,100\n"
                           "2024-03-01 12:07:00,-18.5,100,7\n"
                           "time,cabinet_temperature [degC],power [W]\n"
                           "2024-03-01 12:08:00,\"-18.5,100\n"
                           "\n"
                           "2024-03-01 12:09:00,-18.5,100"));
  const auto lines = [&](LogTrouble trouble) { return log.troubles.of(trouble).first_lines; };
  EXPECT_EQ(lines(LogTrouble::missing_value), Lines{3});
  EXPECT_EQ(lines(LogTrouble::unreadable_value), (Lines{4, 13}));
  EXPECT_EQ(lines(LogTrouble::impossible_value), (Lines{5, 6}));
  EXPECT_EQ(lines(LogTrouble::unreadable_time), Lines{7});
  EXPECT_EQ(lines(LogTrouble::missing_cells), (Lines{8, 13}));
  EXPECT_EQ(lines(LogTrouble::repeated_time), Lines{9});
  EXPECT_EQ(lines(LogTrouble::out_of_order), Lines{10});
  EXPECT_EQ(lines(LogTrouble::extra_cells), Lines{11});
  EXPECT_EQ(lines(LogTrouble::repeated_header), Lines{12});
  EXPECT_EQ(lines(LogTrouble::open_quote), Lines{13});
  EXPECT_EQ(lines(LogTrouble::cut_last_line), Lines{15});
  EXPECT_EQ(log.troubles.total(), 14U);
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0, 180.0, 240.0, 360.0, 360.0, 420.0, 480.0, 540.0));
  EXPECT_TRUE(std::isnan(log.value(3, cabinet)));
  EXPECT_TRUE(std::isnan(log.value(4, power)));
}

TEST(Troubles, NumbersThatAreNoTimeAreNotUsed) {
  const ReadLog log = read_log("seconds,power [W]\n0,1\n10,1\n20,1\n30,1\n40,1\n3e25,1\n50,1\n");
  EXPECT_EQ(log.troubles.of(LogTrouble::unreadable_time).first_lines, Lines{7});
  EXPECT_EQ(log.rows.size(), 6U);
}

TEST(Troubles, OnlyTheFirstLinesAreKept) {
  std::string rows;
  for (int i = 0; i < 5000; ++i) rows += "2024-03-01 12:00:00,-18,1\n";
  for (int i = 0; i < 1000; ++i) rows += "never,-18,1\n";
  const ReadLog log = read_log(with_header(rows));
  EXPECT_EQ(log.troubles.of(LogTrouble::unreadable_time).count, 1000U);
  EXPECT_EQ(log.troubles.of(LogTrouble::unreadable_time).first_lines.size(), LogTroubles::most_lines);
}

TEST(Troubles, UnitSlips) {
  const ReadLog log =
      read_log(with_header("2024-03-01 12:00:00,-18.5,100\n"
                           "2024-03-01 12:00:10,-1.2,100\n"  // -18.4 degC in degF
                           "2024-03-01 12:00:20,-18.3,100\n"
                           "2024-03-01 12:00:30,254.9,0.1\n"));  // kelvins; kilowatts
  EXPECT_EQ(log.troubles.of(LogTrouble::unit_slip).first_lines, (Lines{3, 5, 5}));
  EXPECT_NEAR(log.value(1, cabinet), 254.7, 0.1);
  EXPECT_NEAR(log.value(3, cabinet), 254.9, 1e-9);
}

/// Rows so far apart, with a slip to degF in row `slipped`, whose time is written by `time_of` before the values or
/// behind.
std::string slipped_log(int spacing_second, int slipped, bool has_time_last,
                        const std::function<std::string(int)>& time_of) {
  std::string text = has_time_last ? "cabinet_temperature [degC],time\n" : "time,cabinet_temperature [degC]\n";
  for (int row = 0; row < 12; ++row) {
    const std::string value = row == slipped ? "-1.2" : "-18.4";
    const std::string time = time_of(row * spacing_second);
    text += (has_time_last ? value + "," + time : time + "," + value) + "\n";
  }
  return text;
}
std::string two_digits(int number) { return (number < 10 ? "0" : "") + std::to_string(number); }
std::string full_stamp(int second) {
  return "2024-03-01 12:" + two_digits(second / 60) + ":" + two_digits(second % 60);
}

// A slip is one whatever the time cells look like: whether the minute is that of the row before, and where they stand.
TEST(Troubles, UnitSlipsAreSeenHoweverTimesAreWritten) {
  const auto elapsed = [](int second) { return std::to_string(second); };
  for (const int slipped : {3, 4, 5, 6}) {
    for (const bool has_time_last : {false, true}) {
      for (const std::string& text :
           {slipped_log(10, slipped, has_time_last, full_stamp), slipped_log(30, slipped, has_time_last, full_stamp),
            slipped_log(45, slipped, has_time_last, full_stamp), slipped_log(50, slipped, has_time_last, elapsed)}) {
        const ReadLog log = read_log(text);
        EXPECT_EQ(log.troubles.of(LogTrouble::unit_slip).first_lines, Lines{static_cast<unsigned>(slipped) + 2})
            << text;
        EXPECT_NEAR(log.value(static_cast<std::size_t>(slipped), cabinet), 254.75, 0.2) << text;
      }
    }
  }
  const ReadLog minutes = read_log(
      "time,cabinet_temperature [degC]\n12:00,-18.6\n12:01,-18.5\n12:02,-18.5\n12:03,-1.2\n12:04,-18.5\n12:05,-18.5\n");
  EXPECT_EQ(minutes.troubles.of(LogTrouble::unit_slip).first_lines, Lines{5});
}

// What passed since the last value counts, not what passed since the last row: a coil warms while its cells are empty.
TEST(Troubles, AValueAfterEmptyCellsIsNoSlip) {
  std::string text = "time,coil [degC],power [W]\n";
  for (int minute = 0; minute < 12; ++minute) {
    const std::string coil = minute < 3 ? "-18" : minute < 6 ? "" : minute < 9 ? "-0.3" : "-0.2";
    text += full_stamp(60 * minute) + "," + coil + ",400\n";
  }
  const ReadLog log = read_log(text);
  EXPECT_EQ(log.troubles.of(LogTrouble::unit_slip).count, 0U);
  EXPECT_NEAR(log.value(6, coil), 272.85, 1e-9);
}

TEST(Troubles, WattsInAColumnOfKilowatts) {
  const ReadLog log =
      read_log("time,power [kW]\n2024-03-01 12:00:00,0.100\n2024-03-01 12:01:00,101\n2024-03-01 12:02:00,0.102\n");
  EXPECT_EQ(log.troubles.of(LogTrouble::unit_slip).first_lines, Lines{3});
  EXPECT_EQ(log.value(1, power), 101.0);
}

TEST(Troubles, AQuickRiseIsNoSlip) {
  // A coil that goes from -18 degC to the plateau at 0 degC between two rows of five minutes.
  const ReadLog log =
      read_log("time,coil [degC]\n2024-03-01 12:00:00,-18\n2024-03-01 12:05:00,-0.4\n2024-03-01 12:10:00,-0.1\n");
  EXPECT_EQ(log.troubles.total(), 0U);
  EXPECT_NEAR(log.value(1, coil), 272.75, 1e-9);
}

TEST(Troubles, PowerUpValueOfOneWireSensors) {
  const ReadLog log =
      read_log("time,coil [degC]\n2024-03-01 12:00:00,-18\n2024-03-01 12:00:05,85\n2024-03-01 12:00:10,-18\n");
  EXPECT_EQ(log.troubles.of(LogTrouble::impossible_value).first_lines, Lines{3});
}

TEST(Troubles, PowerThatIsTooLittleForAnyApplianceIsAskedAbout) {
  EXPECT_TRUE(
      read_log("time,power [W]\n2024-03-01 12:00:00,0.12\n2024-03-01 12:01:00,0.003\n").asks("power-unit-suspect"));
  EXPECT_FALSE(read_log("time,power [W]\n2024-03-01 12:00:00,120\n2024-03-01 12:01:00,3\n").says("power-unit-suspect"));
}

TEST(Troubles, LinesWithoutEndArePassedOver) {
  const std::string rows =
      "2024-03-01 12:00:00,-18.5,100\n" + std::string(300000, 'x') + "\n2024-03-01 12:01:00,-18.5,100\n";
  const ReadLog log = read_log(with_header(rows));
  EXPECT_EQ(log.rows.size(), 2U);
  EXPECT_EQ(log.troubles.of(LogTrouble::line_too_long).count, 1U);
}

TEST(Troubles, ALogCutAtAnyByteIsReadUpToThere) {
  const std::string text = with_header("2024-03-01 12:00:00,-18.5,100\n2024-03-01 12:01:00,-18.25,101\n");
  for (std::size_t bytes = 0; bytes <= text.size(); ++bytes) {
    const std::string cut = text.substr(0, bytes);
    try {
      const ReadLog log = read_log(cut);
      EXPECT_LE(log.rows.size(), 2U);
    } catch (const InputError&) {
      EXPECT_LT(bytes, 70U) << cut;  // within the header and the first time
    }
  }
}

/// Four days of a freezer that cycles, a row a minute; from row `from` on each cell is written by the other function.
std::string written(const std::string& header, int from, const std::function<std::string(double, double)>& before,
                    const std::function<std::string(double, double)>& behind) {
  std::string text = header;
  for (int minute = 0; minute < 4 * 1440; ++minute) {
    const int of_cycle = minute % 41;
    const bool heats = minute % 600 > 570;
    const double coil = heats           ? -20.0 + (minute % 600 - 570) * 0.9
                        : of_cycle < 22 ? -18.0 - 0.45 * of_cycle
                                        : -27.9 + 0.52 * (of_cycle - 22);
    const double watt = heats ? 450.0 : of_cycle < 22 ? 118.0 + 0.1 * of_cycle : 2.0;
    char time[40];
    std::snprintf(time, sizeof time, "2026-01-%02dT%02d:%02d:00,", 1 + minute / 1440, minute / 60 % 24, minute % 60);
    text += time + (minute < from ? before : behind)(watt, coil) + "\n";
  }
  return text;
}
std::string cells(double watt, double coil) { return std::to_string(watt) + "," + std::to_string(coil); }
std::string in_kilowatts(double watt, double coil) { return cells(watt / 1000.0, coil); }
std::string in_fahrenheit(double watt, double coil) { return cells(watt, 1.8 * coil + 32.0); }

LogReader read_through(const std::string& text) {
  LogReader reader(log_in_memory(text));
  while (!reader.next().empty()) {
  }
  return reader;
}

TEST(DoubtedUnits, AreThoseThatChangeWithinTheLog) {
  const std::string header = "time,power,coil\n";
  const LogReader right = read_through(written(header, 9999, cells, cells));
  EXPECT_EQ(right.doubtful_units(), (std::array{false, false, false, false}));
  EXPECT_EQ(right.troubles().of(LogTrouble::unit_slip).count, 0U);
  for (const int from : {3000, 3007, 3019, 3033}) {
    const LogReader kilowatts = read_through(written(header, from, cells, in_kilowatts));
    EXPECT_EQ(kilowatts.doubtful_units(), (std::array{false, false, true, false})) << from;
    EXPECT_NEAR(static_cast<double>(kilowatts.troubles().of(LogTrouble::unit_slip).count), 5760.0 - from, 200.0);
    EXPECT_NEAR(*find_finding(kilowatts.findings(), "unit-changes")->number("line"), from, 200.0);
    if (from == 3000) continue;  // right after a defrost, where the coil falls by as much by itself
    const LogReader fahrenheit = read_through(written(header, from, cells, in_fahrenheit));
    EXPECT_TRUE(fahrenheit.doubtful_units()[0]) << from;
    EXPECT_GT(fahrenheit.troubles().of(LogTrouble::unit_slip).count, 100U) << from;
  }
}

// Blank lines, comments and rows that are not used stand between: the line is the file's own.
TEST(DoubtedUnits, AreToldWithTheLineOfTheFile) {
  const std::string plain = written("time,power,coil\n", 3007, cells, in_kilowatts);
  std::string loose;
  std::uint64_t line = 0;
  for (std::size_t begin = 0; begin < plain.size(); ++line) {
    const std::size_t end = plain.find('\n', begin) + 1;
    loose += plain.substr(begin, end - begin) + (line > 0 ? "\n# a remark\n" : "");
    begin = end;
  }
  const LogReader of_plain = read_through(plain);
  const LogReader of_loose = read_through(loose);
  const double plain_line = *find_finding(of_plain.findings(), "unit-changes")->number("line");
  const double loose_line = *find_finding(of_loose.findings(), "unit-changes")->number("line");
  EXPECT_EQ(loose_line, 3.0 * (plain_line - 2.0) + 2.0);
  EXPECT_EQ(of_loose.troubles().of(LogTrouble::unit_slip).count, of_plain.troubles().of(LogTrouble::unit_slip).count);
}

// Near -40 degrees the scales meet: from -32 degC a heater warms a coil from row to row by as much as another unit
// would.
TEST(DoubtedUnits, AreNotThoseOfAVeryColdCoilThatDefrosts) {
  std::string text = "time,coil [degC]\n";
  for (int minute = 0; minute < 5 * 1440; ++minute) {
    const int since = minute - 2272;
    const double cycles = -32.6 + 1.4 * std::sin(0.15 * minute);
    const double warmed = since < 3 ? -32.4 + 3.1 * since : std::min(12.0, -23.1 + 5.5 * (since - 3));
    const double cooled = std::max(-29.9, 12.0 - 0.9 * (since - 20));
    const double coil = since < 0 || since >= 240 ? cycles
                        : since < 20              ? warmed
                                                  : cooled + 0.3 * std::sin(0.15 * minute);
    text += std::to_string(60 * minute) + "," + std::to_string(coil) + "\n";
  }
  EXPECT_FALSE(read_through(text).doubtful_units()[index_of(LogQuantity::coil_temperature)]);
}

// Rows of four minutes: a defrost's own steps are as wide as from -24 degC to -11, which is -24 degC in degF. The
// charge is lost after the last of them, and the coil stays there.
TEST(DoubtedUnits, AreNotThoseOfAFaultInRowsSomeMinutesApart) {
  std::string text = "time,coil\n";
  for (int row = 0; row < 4 * 360; ++row) {
    const int since = row % 120 - 60;
    const bool is_lost = row >= 9 * 120 + 64;
    const double cycles = (is_lost ? -11.5 : -24.0) + 1.2 * std::sin(0.6 * since);
    const double coil = since >= 0 && since < 4 && !is_lost ? -11.0 + 7.0 * since : cycles;
    text += std::to_string(240 * row) + "," + std::to_string(coil) + "\n";
  }
  EXPECT_FALSE(read_through(text).doubtful_units()[index_of(LogQuantity::coil_temperature)]);
}

TEST(DoubtedUnits, AreThoseThatTheValuesContradict) {
  const LogReader watts = read_through(written("time,power (kW),coil (degC)\n", 9999, cells, cells));
  EXPECT_TRUE(watts.doubtful_units()[index_of(power)]);
  EXPECT_NE(find_finding(watts.findings(), "unit-contradicted"), nullptr);
  const LogReader kilowatts = read_through(written("time,power (W),coil (degC)\n", 9999, in_kilowatts, in_kilowatts));
  EXPECT_TRUE(kilowatts.doubtful_units()[index_of(power)]);
  EXPECT_FALSE(kilowatts.doubtful_units()[index_of(coil)]);
}

TEST(DateOrder, IsSaidAsItTurnedOut) {
  std::string rows = "time,power [W]\n";
  for (int minute = 0; minute < 3000; ++minute)  // the first 64 KiB hold one date
    rows += "01/0" + std::to_string(1 + minute / 2900) + "/2026 " + (minute < 2900 ? "11:58:00 AM" : "12:05:00 PM") +
            ",100\n";
  const ReadLog log = read_log(rows);
  EXPECT_EQ(log.times().back(), 86400.0 + 7.0 * 60.0);
  EXPECT_FALSE(log.says("day-month-order-guessed"));
  ASSERT_TRUE(log.says("day-month-order-changed"));
  EXPECT_EQ(find_finding(log.findings, "day-month-order-changed")->text("order"), "month_first");
  // Two dates in the head settle it there.
  const ReadLog settled =
      read_log("time,power [W]\n01/01/2026 11:58:00 PM,100\n01/01/2026 11:59:00 PM,100\n01/02/2026 12:00:00 AM,100\n");
  EXPECT_THAT(settled.times(), ElementsAre(0.0, 60.0, 120.0));
  EXPECT_FALSE(settled.says("day-month-order-guessed"));
}

TEST(Columns, OfTemperaturesWithoutAPlaceTheOneThatSwingsIsTheCoils) {
  const std::string rows =
      "2026-01-01 00:00,-18.1,-24\n2026-01-01 00:10,-18.2,-10\n2026-01-01 00:20,-17.9,0.1\n2026-01-01 00:30,-17.5,12\n";
  for (const char* header : {"time,temp 1,temp 2\n", ""}) {
    const ReadLog log = read_log(header + rows);
    EXPECT_NEAR(log.value(3, coil), 285.15, 1e-9) << header;
    EXPECT_NEAR(log.value(3, cabinet), 255.65, 1e-9) << header;
    EXPECT_TRUE(log.asks("column-guessed") || log.says("column-guessed"));
  }
}

}  // namespace
}  // namespace ohmwright::cycles
