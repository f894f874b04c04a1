#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/document/series_document.hpp>

#include "temporary_folder.hpp"
#include "test_kind.hpp"

namespace ohmwright {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// A kind with a current beside what the framework's test kind has, whose resistance may be a contact's state.
const Descriptor& descriptor() {
  static const Descriptor with_current = [] {
    Descriptor d = testing::test_descriptor();
    d.measurands.push_back({"current", "Current", Dimension::current, "A", false});
    return d;
  }();
  return with_current;
}

std::vector<Reading> read(std::string_view text, const Meter* meter = nullptr) {
  return read_series(text, "series.csv", descriptor(), meter);
}

std::string refusal(std::string_view text) {
  return testing::refusal_of([text] { read(text); });
}

/// "line 2: OL at 296.15": what a reading says, in SI.
std::vector<std::string> said(const std::vector<Reading>& readings) {
  std::vector<std::string> text;
  for (const Reading& reading : readings) {
    std::ostringstream one;
    one << reading.label << ' ' << reading.measurand << ' ';
    if (const auto* stated = std::get_if<StatedValue>(&reading.observed))
      one << stated->value.value_in_si();
    else if (const auto* contact = std::get_if<ContactState>(&reading.observed))
      one << (*contact == ContactState::open ? "open" : "closed");
    else
      one << "OL";
    for (const Condition& condition : reading.conditions)
      one << ' ' << condition.id << ' ' << condition.value.value.value_in_si();
    text.push_back(one.str());
  }
  return text;
}

TEST(Series, AUnitOfTheHeaderIsNoAssumption) {
  const auto assumed = [](std::string_view text) {
    return std::get<StatedValue>(read(text).at(0).observed).unit_assumed;
  };
  EXPECT_FALSE(assumed("resistance [kohm]\n32.4\n"));
  EXPECT_TRUE(assumed("resistance\n32.4\n"));
}

TEST(Series, KelvinThatWereMeantAsDegreesAreAsked) {
  EXPECT_EQ(refusal("at,resistance\n23K,28 ohm\n"),
            "series.csv:2: at: 23 K is -250.1 degC; if 23 degrees Celsius were meant, write \"23C\"");
}

TEST(Series, EachRowIsAReadingInItsOrder) {
  EXPECT_THAT(
      said(read("part_temperature [degC],resistance/kohm\n0,32.5\n10.0,19.9\n25,OL\n")),
      ElementsAre("line 2 resistance 32500 part_temperature 273.15", "line 3 resistance 19900 part_temperature 283.15",
                  "line 4 resistance OL part_temperature 298.15"));
}

TEST(Series, TakesAContactByTheWordState) {
  EXPECT_THAT(
      said(read("at/degC,state\n-10,closed\n5,open\n6,OL\n7,0.3\n8,no beep\n")),
      ElementsAre("line 2 resistance closed part_temperature 263.15", "line 3 resistance open part_temperature 278.15",
                  "line 4 resistance OL part_temperature 279.15", "line 5 resistance 0.3 part_temperature 280.15",
                  "line 6 resistance open part_temperature 281.15"));
}

TEST(Series, IsTakenAsSpreadsheetsAndLoggersWriteIt) {
  const std::vector<std::string> wanted{"line 2 resistance 1.5 part_temperature 296.25"};
  EXPECT_EQ(said(read("\xEF\xBB\xBF"
                      "At [degC];Resistance [ohm]\r\n23,1;1,5\r\n")),
            wanted);
  EXPECT_EQ(said(read("\"at [degC]\"\t\"resistance [ohm]\"\n\"23.1\"\t\"1.5\"\n")), wanted);
  EXPECT_EQ(said(read("part temperature [deg C] , RESISTANCE / ohm ,,\n 23.1 , 1.5 ,,\n")), wanted);
  EXPECT_EQ(said(read("temperature (degC);resistance (ohm)\n23.1;1.5\n")), wanted);
  EXPECT_EQ(said(read("at,resistance\n23.1 C,1.5 ohm")), wanted) << "no line end, units in the cells";
  EXPECT_EQ(said(read("# from the cellar\n\nat,resistance\n  # cold\n\n23.1C,1.5\n")),
            std::vector<std::string>{"line 6 resistance 1.5 part_temperature 296.25"});
}

TEST(Series, ConditionsShareOneErrorAndTakeTheKindsDoubt) {
  const auto readings = read("at/degC,resistance\n20,1.5\n21 +- 0.5,1.6\n");
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_EQ(readings[0].conditions[0].error_source, "series");
  EXPECT_EQ(readings[1].conditions[0].error_source, "series");
  EXPECT_TRUE(readings[0].conditions[0].uncertainty_assumed);
  EXPECT_EQ(*readings[0].conditions[0].value.half_width, 2.0);
  EXPECT_EQ(*readings[1].conditions[0].value.half_width, 0.5);
}

TEST(Series, SeveralThingsReadInOneRowAreSeveralReadings) {
  EXPECT_THAT(
      said(read("line/V,current/A,speed/rpm\n118,3.6,\n117,,60\n")),
      ElementsAre("line 2, current current 3.6 line_voltage 118", "line 3, speed speed 6.28319 line_voltage 117"));
  EXPECT_EQ(refusal("line/V,current/A,speed/rpm\n118,,\n"), "series.csv:2: says nothing that was read");
}

TEST(Series, AsksTheMeterWhetherAOneIsOverRange) {
  Meter meter = testing::basic_meter("0 ohm");
  EXPECT_EQ(said(read("resistance\n1\n", &meter))[0], "line 2 resistance 1");
  meter.functions[0].one_means_over_range = true;
  EXPECT_EQ(said(read("resistance\n1\n", &meter))[0], "line 2 resistance OL");
}

TEST(Series, TimeIsNotReadButMustNotRunBackwards) {
  const auto with = [](const std::vector<std::string>& times) {
    std::string text = "time [s],resistance\n";
    for (const std::string& time : times) text += time + ",1.5\n";
    return refusal(text);
  };
  EXPECT_EQ(with({"0", "1.5", "1.5", "1e3"}), "");
  EXPECT_EQ(with({"9:59", "10:00", "10:00:00.5", "25:00"}), "");
  EXPECT_EQ(with({"2024-03-01 23:59:59", "2024-03-02", "2024-03-02T00:00:01Z", "2024-10-01"}), "");
  EXPECT_EQ(with({"2024/3/9 8:00", "2024/3/10 7:00"}), "");
  EXPECT_EQ(with({"1", "3", "2", "4"}), R"(series.csv:4: time: time runs backwards: "2" after "3")");
  EXPECT_EQ(
      with({"23:59", "0:01"}),
      R"(series.csv:3: time: time runs backwards: "0:01" after "23:59"; where midnight has passed, write the date too)");
  EXPECT_EQ(with({"2024-03-02 08:00", "2024-03-01 09:00"}),
            R"(series.csv:3: time: time runs backwards: "2024-03-01 09:00" after "2024-03-02 08:00")");
  EXPECT_EQ(
      with({"1", "8:00"}),
      R"(series.csv:3: time: "8:00" is written in another way than "1"; all times of a series are written in one)");
  const std::string no_time =
      R"(: expected a number, such as "12.5", a clock time, such as "14:05:30", or a date with the year first, such as )"
      R"("2024-03-01 14:05")";
  EXPECT_EQ(with({"31.12.2024", "01.01.2025"}), R"(series.csv:2: time: "31.12.2024" is no time)" + no_time);
  EXPECT_EQ(with({"1", "nan"}), R"(series.csv:3: time: "nan" is no time)" + no_time);
  EXPECT_THAT(with({"8:61"}), HasSubstr("is no time"));
  EXPECT_EQ(refusal("time;resistance\n1,5;1,5\n1,4;1,5\n"),
            R"(series.csv:3: time: time runs backwards: "1.4" after "1.5")");
}

TEST(Series, TellsAllThatIsWrongWithItsLine) {
  EXPECT_EQ(
      refusal("at/degC,resistance,sped,speed/kohm\n"
              "23,1.5,,1\n"
              ",OL,2,3\n"
              "23,x,2,3 rpm\n"
              "23,1.5,2,3,4\n"
              "23,\"1.5,2,3\n"
              "23 kohm,1.5\n"),
      "series.csv:1: the kind test-part has nothing called \"sped\"; did you mean \"speed\"?\n"
      "series.csv:1: \"kohm\" in the column \"speed\" is no unit of a rotational speed\n"
      "series.csv:3: at: is empty; write what was read, or leave the row out\n"
      "series.csv:4: resistance: expected a resistance, such as \"11.0 kohm\", or \"open\", \"closed\", \"beep\", \"no "
      "beep\" or \"OL\", got \"x\"\n"
      "series.csv:5: has more cells than the 4 columns that are named; cells are separated by \",\"\n"
      "series.csv:6: a quote is opened and not closed in this line\n"
      "series.csv:7: at: expected a temperature, such as \"23 degC\", got \"23 kohm\"");
}

TEST(Series, RefusesAHeaderThatSaysTooLittleOrTwice) {
  EXPECT_THAT(refusal("at/degC\n23\n"),
              HasSubstr("series.csv:1: no column says what was read; name one of them \"resistance\", \"speed\""));
  EXPECT_THAT(refusal("at,part-temperature,resistance\n23C,23C,1.5\n"),
              HasSubstr("series.csv:1: the columns \"at\" and \"part-temperature\" say the same; keep one"));
  EXPECT_THAT(
      refusal("at [degv],resistance\n23,1.5\n"),
      HasSubstr("series.csv:1: \"degv\" in the column \"at\" is no unit of a temperature; did you mean \"degC\"?"));
  EXPECT_EQ(refusal("at/degC,resistance\n"), "series.csv:1: no row follows the names of the columns");
  EXPECT_EQ(refusal(""), "series.csv: is empty; expected a table of readings");
  EXPECT_EQ(refusal("# nothing\n"), "series.csv: is empty; expected a line that names the columns, and rows below it");
  EXPECT_EQ(refusal(std::string("a\0b", 3)),
            "series.csv: is not text: it holds NUL bytes; expected a table of readings");
  EXPECT_EQ(refusal("\xFF\xFE"
                    "a\0"),
            "series.csv: is UTF-16 text; save the file as UTF-8");
}

TEST(Series, ACommaIsADecimalPointOnlyBetweenSemicolons) {
  EXPECT_EQ(said(read("at/degC;resistance\n23,1 +- 0,5;1,5 kohm\n"))[0],
            "line 2 resistance 1500 part_temperature 296.25");
  EXPECT_THAT(refusal("at/degC;resistance\n23;1.234,5\n"), HasSubstr("has a comma"));
  EXPECT_THAT(refusal("at/degC;resistance\n23;1,234,5\n"), HasSubstr("more than one decimal point"));
  EXPECT_THAT(refusal("at/degC\tresistance\n23\t1,5\n"), HasSubstr("has a comma"));
  EXPECT_THAT(refusal("at/degC,resistance\n23,\"1,5\"\n"), HasSubstr("has a comma"));
}

TEST(Series, ShowsNoControlCharacterOfItsCells) {
  const std::string text = refusal("at/degC,\x1b[31m\a\n23,\x1b]0;\x7f\n");
  EXPECT_THAT(text, HasSubstr(R"(\x1b[31m\x07)"));
  for (const char letter : text) EXPECT_TRUE(letter == '\n' || (letter >= 0x20 && letter != 0x7F));
}

TEST(Series, HasABoundThatIsTold) {
  const auto rows = [](std::size_t count) {
    std::string text = "resistance/ohm\n";
    for (std::size_t i = 0; i < count; ++i) text += "1\n";
    return text;
  };
  EXPECT_EQ(read(rows(most_series_rows)).size(), 100'000U);
  EXPECT_EQ(refusal(rows(most_series_rows + 1)),
            "series.csv:100002: more than 100000 rows; give a part of the series, or thin it out");
}

TEST(Series, TellsTheFirstHundredProblems) {
  std::string text = "resistance/ohm\n";
  for (int i = 0; i < 150; ++i) text += "x\n";
  const std::string said_of_it = refusal(text);
  EXPECT_EQ(std::count(said_of_it.begin(), said_of_it.end(), '\n'), 100);
  EXPECT_THAT(said_of_it, HasSubstr("series.csv:101: and more; the first 100 are told"));
}

TEST(Series, ComesBackFromItsRecord) {
  const auto readings = read("at/degC,state\n-10,closed\n5,open\n6,OL\n7,0.3 +- 1 %\n");
  const auto back = readings_from_record(readings_record(readings));
  ASSERT_EQ(back.size(), readings.size());
  for (std::size_t i = 0; i < readings.size(); ++i) EXPECT_TRUE(equal(back[i], readings[i])) << i;
}

TEST(Series, IsReadFromAFile) {
  const testing::TemporaryFolder folder;
  const std::string path = folder.write("warm.csv", "at/degC,resistance\n23,1.5\n");
  EXPECT_EQ(read_series_file(path, descriptor(), nullptr).size(), 1U);
  EXPECT_THAT(testing::refusal_of([&] { read_series_file(folder.path("warn.csv"), descriptor(), nullptr); }),
              HasSubstr("not found; did you mean \"warm.csv\"?"));
}

}  // namespace
}  // namespace ohmwright
