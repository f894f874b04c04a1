#include <algorithm>
#include <sstream>

#include <gmock/gmock.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "charted_part.hpp"

namespace ohmwright {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing::straight_chart;
using testing::switching_chart;

const Sentences& say() {
  static const Sentences sentences{UnitPreferences{}};
  return sentences;
}

ChartMark mark_at(double kelvin) { return {"reading 1", kelvin, 1.0, kelvin + 20.0, 4.0}; }

TEST(Chart, AsksThePartFromEndToEnd) {
  const Chart chart = straight_chart();
  ASSERT_EQ(chart.lines.size(), 1U);
  ASSERT_EQ(chart.lines[0].points.size(), 7U);
  EXPECT_EQ(chart.lines[0].points.front().condition, 240.0);
  EXPECT_EQ(chart.lines[0].points.back().condition, 300.0);
  EXPECT_FALSE(chart.lines[0].points.front().expected);
  EXPECT_EQ(chart.lines[0].points.back().expected->nominal.value_in_si(), 300.0);
}

TEST(Chart, DrawsOneLineForEachValueOfAState) {
  const Chart chart = switching_chart();
  ASSERT_EQ(chart.lines.size(), 2U);
  EXPECT_EQ(chart.lines[0].state, "warming");
  EXPECT_EQ(chart.lines[1].state, "cooling");
  EXPECT_EQ(*chart.lines[0].points[3].expected->share_closed, 1.0);  // 270 K
  EXPECT_EQ(*chart.lines[1].points[3].expected->share_closed, 0.0);
  EXPECT_TRUE(is_of_contacts(chart));
}

TEST(Chart, MarksReadingsOfItsMeasurandAndCondition) {
  const Descriptor& descriptor = testing::charted_descriptor();
  Reading with = testing::resistance_reading("300 ohm +- 3 ohm");
  with.conditions = {{"part_temperature", parse_stated_value("10C ± 2K", Dimension::temperature)}};
  const Reading without = testing::resistance_reading("300 ohm");
  const MeterSet meters({testing::basic_meter("0 ohm")});
  const std::vector<ChartMark> marks =
      chart_marks(straight_chart(), Evidence(descriptor, std::vector{with, without}, meters));
  ASSERT_EQ(marks.size(), 1U);
  EXPECT_NEAR(marks[0].condition, 283.15, 1e-9);
  EXPECT_NEAR(marks[0].condition_half_width, 2.0, 1e-9);
  EXPECT_NEAR(marks[0].value, 300.0, 1e-9);
  EXPECT_NEAR(marks[0].value_half_width, 3.0, 1e-9);
}

/// Seen closed it stands with the parts that are all closed, and open with those of which none is.
TEST(Chart, MarksWhatWasSeenOfAContact) {
  const Descriptor& descriptor = testing::charted_descriptor();
  const auto read = [](const char* text) {
    Reading reading = testing::resistance_reading(text);
    reading.conditions = {{"part_temperature", parse_stated_value("10C ± 2K", Dimension::temperature)}};
    return reading;
  };
  const MeterSet meters({testing::basic_meter("0 ohm")});
  Chart chart = switching_chart();
  chart.marks =
      chart_marks(chart, Evidence(descriptor, std::vector{read("0.3 ohm"), read("50 ohm"), read("20 Mohm")}, meters));
  ASSERT_EQ(chart.marks.size(), 3U);
  EXPECT_EQ(chart.marks[0].value, 1.0);
  EXPECT_EQ(chart.marks[1].value, 0.5);
  EXPECT_EQ(chart.marks[2].value, 0.0);
  EXPECT_EQ(chart.marks[0].value_half_width, 0.0);
  EXPECT_NEAR(chart.marks[0].condition_half_width, 2.0, 1e-9);
  const std::string json = chart_json(chart);
  for (const Problem& problem : chart_schema().problems(parse_document(json, "chart").root))
    ADD_FAILURE() << problem.text;
  EXPECT_THAT(json, HasSubstr("\"seen\": \"neither\""));
  EXPECT_THAT(chart_page(chart, switching_chart(101), say(), {80, false}), HasSubstr("X what was seen"));
}

/// The contact opens at 283 K when it warms: between two points of the line nothing finer is known.
TEST(Chart, TellsWhereGoodPartsSwitch) {
  const Chart chart = switching_chart(61);  // every kelvin
  const std::vector<SwitchingSpan> warming = switching_spans(chart.lines[0]);
  ASSERT_EQ(warming.size(), 1U);
  EXPECT_DOUBLE_EQ(warming[0].from, 282.0);
  EXPECT_DOUBLE_EQ(warming[0].to, 283.0);
  // Trip points that lie evenly between 270.25 and 280.75 K, seen every kelvin.
  ChartLine even;
  for (int kelvin = 260; kelvin <= 290; ++kelvin) {
    Expectation expected{AnyQuantity(Dimension::resistance, 0.0), {}};
    expected.share_closed = std::clamp((280.75 - kelvin) / 10.5, 0.0, 1.0);
    even.points.push_back({static_cast<double>(kelvin), expected});
  }
  ASSERT_EQ(switching_spans(even).size(), 1U);
  EXPECT_NEAR(switching_spans(even)[0].from, 270.25, 1e-9);
  EXPECT_NEAR(switching_spans(even)[0].to, 280.75, 1e-9);
}

/// A line along which the part says nothing is left out, so that a chart of it is refused and not drawn empty.
TEST(Chart, HasNoLineOfWhatIsNotKnown) {
  class Silent : public Part {
   public:
    void judge(const Evidence& /*evidence*/, const JudgeSettings& /*settings*/, Findings& /*findings*/) const override {
    }
  };
  Descriptor descriptor;
  descriptor.measurands = {{"resistance", "Resistance", Dimension::resistance, "ohm", false}};
  descriptor.conditions.emplace_back();
  descriptor.conditions[0].id = "part_temperature";
  descriptor.conditions[0].dimension = Dimension::temperature;
  descriptor.charts = {{"resistance", "part_temperature", Temperature::from_celsius(0), Temperature::from_celsius(10)}};
  ChartRequest request;
  request.from = 273.15;
  request.to = 283.15;
  EXPECT_TRUE(make_chart(Silent(), descriptor, request).lines.empty());
}

TEST(RoundStep, CountsAsPeopleDo) {
  EXPECT_DOUBLE_EQ(round_step(100.0, 20), 5.0);
  EXPECT_DOUBLE_EQ(round_step(50.0, 20), 5.0);
  EXPECT_DOUBLE_EQ(round_step(30.0, 20), 2.0);
  EXPECT_DOUBLE_EQ(round_step(0.19, 20), 0.01);
  EXPECT_DOUBLE_EQ(round_step(180.0, 20), 10.0);
}

TEST(ChartPage, FitsItsWidthAndSaysWhereNothingIsKnown) {
  for (const int width : {40, 80}) {
    Chart chart = straight_chart();
    chart.part_title = "a part";
    chart.marks = {mark_at(280.0)};
    const std::string page = chart_page(chart, straight_chart(101), say(), {width, false});
    std::istringstream lines(page);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(columns_of(line), width) << line;
    EXPECT_THAT(page, HasSubstr("a part: what a good one reads"));
    EXPECT_THAT(page, HasSubstr("X"));
    EXPECT_THAT(page, HasSubstr("~300.0"));  // the model is in doubt there
    // Within the span the topmost line of the plot would hold the upper limit of the last column.
    const std::string top = page.substr(page.find("330.0 Ω |"));
    EXPECT_EQ(top.substr(0, top.find('\n')).back(), ' ');
    EXPECT_THAT(page, HasSubstr("-"));
  }
}

TEST(ChartPage, ShowsTheShareOfClosedContacts) {
  const std::string page = chart_page(switching_chart(), switching_chart(101), say(), {80, false});
  EXPECT_THAT(page, HasSubstr("it warmed"));
  EXPECT_THAT(page, HasSubstr("it cooled"));
  EXPECT_THAT(page, HasSubstr("> 99.9 %"));
  EXPECT_THAT(page, Not(HasSubstr("Ω")));
}

TEST(ChartJson, FollowsItsSchema) {
  for (Chart chart : {straight_chart(), switching_chart()}) {
    chart.marks = {mark_at(280.0)};
    const Document document = parse_document(chart_json(chart), "chart");
    for (const Problem& problem : chart_schema().problems(document.root)) ADD_FAILURE() << problem.text;
  }
}

TEST(ChartCsv, NamesItsUnitsAndLeavesUnknownPlacesEmpty) {
  const std::string csv = chart_csv(straight_chart(), say());
  EXPECT_THAT(csv, ::testing::StartsWith("part_temperature [degC],state,nominal [ohm],lower [ohm],upper [ohm],"
                                         "model_standard_error [ohm],share_closed\n-33.15,,,,,,\n"
                                         "-23.15,,250,225,275,0,\n"));
}

/// Who types °F and kohm gets a file in them: 250 K are -9.67 °F.
TEST(ChartCsv, SpeaksTheUnitsThatWereTyped) {
  UnitPreferences units;
  units.prefer(parse_stated_value("50F", Dimension::temperature).unit);
  units.prefer(parse_stated_value("0.3 kohm", Dimension::resistance).unit);
  EXPECT_THAT(chart_csv(straight_chart(), Sentences(units)),
              ::testing::StartsWith("part_temperature [degF],state,nominal [kohm],lower [kohm],upper [kohm],"
                                    "model_standard_error [kohm],share_closed\n-27.67,,,,,,\n"
                                    "-9.67,,0.25,0.225,0.275,0,\n"));
}

}  // namespace
}  // namespace ohmwright
