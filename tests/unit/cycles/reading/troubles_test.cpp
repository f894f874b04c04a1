#include <cmath>

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

TEST(Troubles, EndOfSummerTime) {
  const ReadLog log = read_log(
      with_header("2024-10-27 02:58:00,-18.5,100\n2024-10-27 02:59:00,-18.5,100\n2024-10-27 02:00:00,-18.5,100\n"
                  "2024-10-27 02:01:00,-18.5,100\n"));
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0, 180.0));
  EXPECT_EQ(log.troubles.of(LogTrouble::clock_set_back).first_lines, Lines{4});
}

TEST(Troubles, AFalseStampFarAheadCostsOneRow) {
  const ReadLog log = read_log(
      with_header("2024-03-01 12:00:00,-18.5,100\n2084-03-01 12:01:00,-18.5,100\n2024-03-01 12:02:00,-18.5,100\n"));
  EXPECT_THAT(log.times(), ElementsAre(0.0, 120.0));
  EXPECT_EQ(log.troubles.of(LogTrouble::out_of_order).first_lines, Lines{3});
  // A pause of weeks is a gap, not a false stamp.
  EXPECT_THAT(read_log(with_header("2024-03-01 12:00:00,-18.5,100\n2024-04-01 12:00:00,-18.5,100\n")).times(),
              ElementsAre(0.0, 31 * 86400.0));
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

}  // namespace
}  // namespace ohmwright::cycles
