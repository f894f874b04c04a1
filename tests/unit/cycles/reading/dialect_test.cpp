#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "read_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;

TEST(Dialect, CommaPointAndIsoTime) {
  const ReadLog log = read_log(
      "timestamp,coil_temperature [degC],power [W]\n"
      "2024-03-01T12:00:00,-18.5,120.5\n"
      "2024-03-01T12:01:00,-18.25,0\n"
      "2024-03-01T12:02:30.5,-18,3\n");
  EXPECT_EQ(log.dialect.separator, ',');
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 150.5));
  EXPECT_DOUBLE_EQ(log.value(1, coil), 273.15 - 18.25);
  EXPECT_EQ(log.value(0, power), 120.5);
  EXPECT_EQ(log.troubles.total(), 0U);
  EXPECT_EQ(log.start_second, 19783 * 86400.0 + 43200.0);
}

TEST(Dialect, SemicolonDecimalCommaDayFirstCarriageReturnsAndMark) {
  const ReadLog log = read_log(
      "\xEF\xBB\xBF"
      "Datum;Uhrzeit;Verdampfer (\xC2\xB0"
      "C);Leistung (kW)\r\n"
      "31.01.2024;23:59:30;-18,5;0,1205\r\n"
      "01.02.2024;00:00:30;-18,25;0,003\r\n");
  EXPECT_EQ(log.dialect.separator, ';');
  EXPECT_EQ(log.dialect.decimal_sign, ',');
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0));
  EXPECT_DOUBLE_EQ(log.value(0, coil), 273.15 - 18.5);
  EXPECT_DOUBLE_EQ(log.value(0, power), 120.5);
  EXPECT_EQ(log.troubles.total(), 0U);
}

TEST(Dialect, TabQuotesAndAmericanDates) {
  const ReadLog log = read_log(
      "\"Date Time\"\t\"Freezer Temp, \xC2\xB0"
      "F\"\t\"Battery, V\"\n"
      "\"01/31/2024 11:59:30 PM\"\t\"-0.4\"\t\"3.1\"\n"
      "\"02/01/2024 12:00:30 AM\"\t\"0.5\"\t\"3.1\"\n");
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0));
  EXPECT_NEAR(log.value(0, cabinet), 273.15 - 18.0, 1e-9);
  EXPECT_TRUE(log.says("column-not-used"));
}

TEST(Dialect, NoHeader) {
  const ReadLog log = read_log("26/01/2012 00:00:00;0;0\n26/01/2012 00:00:01;77;75\n26/01/2012 00:00:02;75;75\n");
  EXPECT_FALSE(log.dialect.has_header);
  EXPECT_THAT(log.times(), ElementsAre(0.0, 1.0, 2.0));
  EXPECT_EQ(log.value(1, power), 77.0);
  EXPECT_TRUE(log.asks("column-guessed"));
}

TEST(Dialect, EpochSecondsMillisecondsAndBlanks) {
  EXPECT_THAT(read_log("1303132964 6.00\n1303132967 6.00\n1303132970 190.5\n").times(), ElementsAre(0.0, 3.0, 6.0));
  const ReadLog log = read_log("t,power\n1700000000500,5.5\n1700000001500,6\n");
  EXPECT_THAT(log.times(), ElementsAre(0.0, 1.0));
  EXPECT_EQ(log.dialect.time.writing, TimeWriting::epoch);
}

TEST(Dialect, Zones) {
  const ReadLog log = read_log(
      "localminute,refrigerator1\n2014-03-09 01:59:00-06,0.012\n2014-03-09 03:00:00-05,0.121\n"
      "2014-03-09 08:01:00Z,0.122\n");
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0, 120.0));
  EXPECT_NEAR(log.value(1, power), 121.0, 1e-9);
  EXPECT_TRUE(log.asks("unit-guessed"));
  EXPECT_EQ(find_finding(log.findings, "unit-guessed")->text("unit"), "kW");
}

// Loggers write serial numbers, channels and places behind the unit.
TEST(Dialect, TheUnitInAHeaderCountsWhereverItStands) {
  for (const char* header : {"Temp, °F (LGR S/N: 1, SEN S/N: 2)", "Temp °F ch1", "Temp (SEN 1) deg F, air",
                             "Temp ° F (ch 1)", "Temp Fahrenheit ch1", "Temp [°F]"}) {
    const ReadLog log =
        read_log("Time,\"" + std::string(header) + "\"\n2026-03-03 08:00:55,32.0\n" + "2026-03-03 08:01:55,-0.4\n");
    EXPECT_NEAR(log.value(0, cabinet), 273.15, 1e-9) << header;  // 32 degF is 0 degC
    EXPECT_FALSE(log.says("unit-guessed")) << header;
    EXPECT_EQ(find_finding(log.findings, "unit-written")->text("unit"), "degF") << header;
  }
  const ReadLog watts = read_log("Time,\"Power, kW (SN 3)\"\n2026-03-03 08:00:55,7\n2026-03-03 08:01:55,0\n");
  EXPECT_NEAR(watts.value(0, power), 7000.0, 1e-9);
  // A letter may be a channel's, and two units say nothing.
  for (const char* header : {"Temp F (SEN 1)", "Temp °C/°F (SEN 1)"})
    EXPECT_TRUE(read_log("Time,\"" + std::string(header) + "\"\n2026-03-03 08:00:55,-18\n2026-03-03 08:01:55,-17\n")
                    .says("unit-guessed"))
        << header;
}

// Spreadsheets and phones write a narrow no-break space before AM and between thousands (U+202F, U+00A0).
TEST(Dialect, BlanksThatKeepWordsTogether) {
  for (const std::string blank : {"\u202F", "\u00A0", " "}) {
    const ReadLog log = read_log("Time;Power (W)\n3/14/2026 11:59:30" + blank + "AM;1" + blank + "200,5" + blank +
                                 "W\n3/14/2026 1:00:30" + blank + "PM;\u2212" + "3,5\n");
    EXPECT_THAT(log.times(), ElementsAre(0.0, 3660.0));
    EXPECT_NEAR(log.value(0, power), 1200.5, 1e-9);
  }
}

TEST(Dialect, ClocksWithOtherMarks) {
  for (const char* rows : {"2026-03-03 08:00:55:250,1\n2026-03-03 08:01:55:500,2\n",
                           "2026-03-03 08-00-55.25,1\n2026-03-03 08-01-55.5,2\n"})
    EXPECT_THAT(read_log("Time,Power (W)\n" + std::string(rows)).times(), ElementsAre(0.0, 60.25)) << rows;
  const ReadLog seconds =
      read_log("Time,Power (W)\n2026-03-03 08-00-55,1\n2026-03-03 08-00-56,2\n2026-03-03 08-00-57,2\n");
  EXPECT_THAT(seconds.times(), ElementsAre(0.0, 1.0, 2.0));
  const ReadLog thousandths =
      read_log("Time,Power (W)\n2026-03-03 08:00:55:100,1\n2026-03-03 08:00:55:200,2\n2026-03-03 08:00:55:300,2\n");
  EXPECT_THAT(thousandths.times(),
              ElementsAre(0.0, ::testing::DoubleNear(0.1, 1e-6), ::testing::DoubleNear(0.2, 1e-6)));
}

TEST(Dialect, QuotesTheFirstTimeWhereNoneCanBeRead) {
  const ReadLog log = read_log("Time,Power (W)\n2026-03-03 08h00m55,1\n2026-03-03 08h01m55,2\n");
  EXPECT_TRUE(log.rows.empty());
  ASSERT_TRUE(log.asks("no-time-read"));
  EXPECT_EQ(find_finding(log.findings, "no-time-read")->number("line"), 2.0);
  EXPECT_EQ(find_finding(log.findings, "no-time-read")->text("text"), "\"2026-03-03 08h00m55\"");
}

TEST(Dialect, RefusesSeveralQuantitiesInOneColumn) {
  std::string log = "entity_id,state,last_changed\n";
  std::string states = "Time,Power (W),State\n";
  for (int minute = 10; minute < 60; ++minute) {
    const std::string time = "2026-03-03T08:" + std::to_string(minute) + ":00Z";
    log += "sensor.coil,-25.2," + time + "\nsensor.power,131.2," + time + "\n";
    states += time + ",100," + (minute / 5 % 2 == 0 ? "on" : "off") + "\n";
  }
  for (const bool is_picked : {false, true}) {
    LogReadingSettings settings;
    if (is_picked) settings.columns = {{"power", "state", "W"}, {"time", "last_changed", ""}};
    try {
      read_log(log, settings);
      ADD_FAILURE() << is_picked;
    } catch (const InputError& error) {
      EXPECT_THAT(error.what(), ::testing::AllOf(::testing::HasSubstr("several things stand in one column"),
                                                 ::testing::HasSubstr("\"sensor.coil\", \"sensor.power\""),
                                                 ::testing::HasSubstr("keep the header and the lines of one")));
    }
  }
  EXPECT_EQ(read_log(states).rows.size(), 50U);  // a state beside a quantity is none of it
}

TEST(Dialect, Elapsed) {
  EXPECT_THAT(read_log("elapsed_min;power_w\n0;5\n0.5;6\n1;7\n").times(), ElementsAre(0.0, 30.0, 60.0));
  EXPECT_THAT(read_log("Elapsed;Power (W)\n23:59:30;5\n24:00:30;6\n").times(), ElementsAre(0.0, 60.0));
  const ReadLog asked = read_log("time,power\n0,5\n10,6\n20,7\n");
  EXPECT_THAT(asked.times(), ElementsAre(0.0, 10.0, 20.0));
  EXPECT_TRUE(asked.asks("elapsed-unit-assumed"));
}

TEST(Dialect, ColumnThatCountsRowsIsAskedAbout) {
  EXPECT_TRUE(read_log("n,power\n0,5\n1,6\n2,7\n3,100\n").asks("time-may-count-rows"));
}

TEST(Dialect, ClockAlonePassesMidnight) {
  const ReadLog log = read_log("time;power (W)\n23:59:00;5\n23:59:30;6\n00:00:00;7\n00:00:30;8\n");
  EXPECT_THAT(log.times(), ElementsAre(0.0, 30.0, 60.0, 90.0));
  EXPECT_TRUE(log.says("time-has-no-date"));
}

TEST(Dialect, SerialDaysOfSpreadsheets) {
  const ReadLog log = read_log("date,temp\n45352.5,-18.1\n45352.500694444,-18.2\n");
  EXPECT_NEAR(log.times()[1], 60.0, 0.01);
  EXPECT_TRUE(log.asks("time-is-serial-days"));
  // With a decimal comma, of three digits too, which are no thousands.
  const ReadLog comma = read_log("Date;Temp\n46084,333970;-18,1\n46084,334664;-18,2\n46084,335;-18,2\n");
  EXPECT_THAT(comma.times(), ElementsAre(0.0, ::testing::DoubleNear(59.96, 0.01), ::testing::DoubleNear(88.99, 0.01)));
  EXPECT_NEAR(*log.start_second, 19783 * 86400.0 + 43200.0, 1e-6);
}

TEST(Dialect, LinesBeforeTheHeader) {
  const ReadLog log = read_log(
      "Logger export\nSerial number: 1234\nInterval: 60 s\n\n# note\nDate,Time,T1 [degC]\n"
      "2024-03-01,12:00:00,-18.5\n2024-03-01,12:01:00,-18.4\n");
  EXPECT_EQ(log.dialect.first_data_line, 6U);
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0));
  EXPECT_DOUBLE_EQ(log.value(0, cabinet), 273.15 - 18.5);
}

TEST(Dialect, UnitsInTheCells) {
  const ReadLog log = read_log(
      "2024-03-01 12:00:00;-18.5 \xC2\xB0"
      "C\n2024-03-01 12:01:00;-0.4 \xC2\xB0"
      "F\n");
  EXPECT_DOUBLE_EQ(log.value(0, cabinet), 273.15 - 18.5);
  EXPECT_NEAR(log.value(1, cabinet), 273.15 - 18.0, 1e-9);
}

TEST(Dialect, OrderOfDayAndMonthThatTheNextDayPutsRight) {
  std::string text = "time;power (W)\n";
  for (int second = 0; second < 7200; ++second) {
    char line[40];
    const int clock = second + 23 * 3600;
    std::snprintf(line, sizeof line, "04/0%d/2024 %02d:%02d:%02d;100\n", clock < 86400 ? 3 : 4, clock % 86400 / 3600,
                  clock / 60 % 60, clock % 60);
    text += line;
  }
  const ReadLog log = read_log(text);
  EXPECT_FALSE(log.asks("day-month-order-guessed"));  // nothing is left to ask once the next day told
  EXPECT_TRUE(log.says("day-month-order-changed"));
  ASSERT_EQ(log.rows.size(), 7200U);
  EXPECT_EQ(log.rows.back().time_second, 7199.0);
  EXPECT_EQ(*log.start_second, 19816 * 86400.0 + 23 * 3600.0);  // 3 April 2024
}

TEST(Dialect, WordsOfAHeaderSayWhatAColumnHolds) {
  const auto quantity_of = [](const std::string& header, const char* values) {
    const ReadLog log =
        read_log("time," + header + "\n2024-03-01 12:00:00," + values + "\n2024-03-01 12:01:00," + values + "\n");
    return log.dialect.columns.empty() ? std::string("none") : std::string(name_of(log.dialect.columns[0].quantity));
  };
  EXPECT_EQ(quantity_of("Refrigerator temperature (\xC2\xB0"
                        "C)",
                        "4.5"),
            "cabinet_temperature");
  EXPECT_EQ(quantity_of("refrigerator1", "0.125"), "power");
  EXPECT_EQ(quantity_of("fridge_power", "0.125"), "power");
  EXPECT_EQ(quantity_of("Freezer", "121"), "power");
  EXPECT_EQ(quantity_of("Freezer", "-18.5"), "cabinet_temperature");
  EXPECT_EQ(quantity_of("evaporator_degC", "-18.5"), "coil_temperature");
  EXPECT_EQ(quantity_of("Coil temp", "-18.5"), "coil_temperature");
  EXPECT_EQ(quantity_of("Current temperature", "-18.5"), "cabinet_temperature");
  EXPECT_EQ(quantity_of("Current [A]", "0.52"), "current");
  EXPECT_EQ(quantity_of("Leistung", "121"), "power");
  EXPECT_EQ(quantity_of("T2", "-18.5"), "cabinet_temperature");
}

TEST(Dialect, AnyPieceSizeGivesTheSame) {
  const std::string text = "time;power (W)\r\n2024-03-01 12:00:00;100,5\r\n2024-03-01 12:00:01;101,5";
  const ReadLog whole = read_log(text);
  for (const std::size_t piece : {1U, 2U, 3U, 7U, 20U}) {
    const ReadLog pieces = read_log(text, {}, piece);
    EXPECT_EQ(pieces.times(), whole.times());
    EXPECT_EQ(pieces.value(1, power), 101.5);
  }
}

TEST(Dialect, NothingToRead) {
  for (const char* text : {"", "\n\n", "time,power\n", "# only a note\n"}) {
    const ReadLog log = read_log(text);
    EXPECT_TRUE(log.rows.empty()) << text;
    EXPECT_TRUE(log.says("log-has-no-rows")) << text;
  }
}

TEST(Dialect, OneColumnNeedsAnInterval) {
  EXPECT_THAT(
      [] { read_log("power\n100\n101\n"); },
      ::testing::ThrowsMessage<InputError>(
          "no column of the log can be its time; it has \"power\"; name one (time=COLUMN), or give the interval of "
          "its rows"));
  LogReadingSettings settings;
  settings.row_interval_second = 60.0;
  const ReadLog log = read_log("power\n100\n101\n", settings);
  EXPECT_THAT(log.times(), ElementsAre(0.0, 60.0));
  EXPECT_EQ(log.value(1, power), 101.0);
}

TEST(Dialect, NothingToMeasure) {
  EXPECT_THAT(
      [] { read_log("time,humidity\n2024-03-01 12:00:00,44\n2024-03-01 12:01:00,45\n"); },
      ::testing::ThrowsMessage<InputError>(
          "no column of the log can be a temperature, a power or a current; it has \"time\", \"humidity\"; name one, "
          "such as power=COLUMN:W"));
}

// Spreadsheets write ISO 8859-1 still; what is said of such a log is UTF-8 all the same.
TEST(Dialect, OfLatin1IsReadAndToldInUtf8) {
  const ReadLog log = read_log(
      "Zeit;K\xFChlraum (\xB0"
      "C)\n2024-03-01 12:00:00;-18,5\n2024-03-01 12:01:00;-18,4 \xB0"
      "C\n2024-03-01 12:02:00;-18,3\n");
  EXPECT_EQ(log.dialect.names.at(1), "K\u00FChlraum (\u00B0C)");
  ASSERT_EQ(log.rows.size(), 3U);
  EXPECT_DOUBLE_EQ(log.value(0, cabinet), 273.15 - 18.5);
  EXPECT_DOUBLE_EQ(log.value(1, cabinet), 273.15 - 18.4);
}

}  // namespace
}  // namespace ohmwright::cycles
