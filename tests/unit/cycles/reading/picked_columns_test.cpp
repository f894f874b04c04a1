#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "read_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

constexpr const char* text = "when,T1,T2,P\n2024-03-01 12:00:00,-18.5,-25.5,0.1\n2024-03-01 12:01:00,-18.4,-25.1,0.2\n";

ReadLog with(std::vector<ColumnChoice> columns) {
  LogReadingSettings settings;
  settings.columns = std::move(columns);
  return read_log(text, settings);
}

TEST(PickedColumns, AreReadAlone) {
  const ReadLog log = with({{"coil_temperature", "T2", "degC"}, {"power", "P", "kW"}});
  ASSERT_EQ(log.dialect.columns.size(), 2U);
  EXPECT_DOUBLE_EQ(log.value(0, coil), 273.15 - 25.5);
  EXPECT_DOUBLE_EQ(log.value(1, power), 200.0);
  EXPECT_FALSE(log.says("unit-guessed"));
  EXPECT_TRUE(log.says("column-not-used"));
}

TEST(PickedColumns, ByNumberAndInFahrenheit) {
  const ReadLog log = with({{"cabinet-temperature", "2", "degF"}});
  EXPECT_NEAR(log.value(0, cabinet), 273.15 + (-18.5 - 32.0) / 1.8, 1e-9);
}

TEST(PickedColumns, TimeWithItsUnit) {
  LogReadingSettings settings;
  settings.columns = {{"time", "n", "min"}, {"power", "p", "W"}};
  EXPECT_EQ(read_log("n,p\n0,5\n1,6\n2,7\n", settings).times(), (std::vector<double>{0.0, 60.0, 120.0}));
}

TEST(PickedColumns, Refusals) {
  using ::testing::ThrowsMessage;
  EXPECT_THAT(
      [] {
        with({{"power", "PP", "W"}});
      },
      ThrowsMessage<InputError>("the log has no column \"PP\"; it has \"when\", \"T1\", \"T2\", \"P\""));
  EXPECT_THAT(
      [] {
        with({{"powr", "P", "W"}});
      },
      ThrowsMessage<InputError>("\"powr\" is nothing that a log holds; did you mean \"power\"?; expected \"time\", "
                                "\"date\", \"clock\", \"coil_temperature\", \"cabinet_temperature\", \"power\" or "
                                "\"current\""));
  EXPECT_THAT(
      [] {
        with({{"power", "P", "degC"}});
      },
      ThrowsMessage<InputError>("\"degC\" for the column \"P\" is no unit of a power"));
  EXPECT_THAT(
      [] {
        with({{"power", "P", "W"}, {"power", "T1", "W"}});
      },
      ThrowsMessage<InputError>("power is given two columns; keep one"));
  EXPECT_THAT(
      [] {
        with({{"power", "P", "W"}, {"current", "P", "A"}});
      },
      ThrowsMessage<InputError>("the column \"P\" is given to power and to current; keep one"));
  EXPECT_THAT(
      [] {
        with({{"time", "when", "fortnight"}});
      },
      ThrowsMessage<InputError>("\"fortnight\" is no unit of time; expected s, min, h, ms, epoch, epoch_ms, "
                                "day_first or month_first"));
}

}  // namespace
}  // namespace ohmwright::cycles
