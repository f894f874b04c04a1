#include <filesystem>
#include <optional>

#include <gmock/gmock.h>

#include <ohmwright/report/chart_picture.hpp>
#include <ohmwright/report/limits_picture.hpp>
#include <ohmwright/report/log_picture.hpp>

#include "charted_part.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::straight_chart;

const Sentences& say() {
  static const Sentences sentences{UnitPreferences{}};
  return sentences;
}

/// What would write a file if any of it were carried out.
const std::filesystem::path trap = std::filesystem::temp_directory_path() / "ohmwright-picture-trap";
const std::string hostile =
    "a'\nsystem 'touch " + trap.string() + "'\n`touch " + trap.string() + "`<script>|{/Symbol a}\x1b";

TEST(PictureScript, KeepsEveryTextInsideItsQuotes) {
  Chart chart = straight_chart();
  chart.part_title = hostile;
  const std::string script = picture_script(chart, say());
  EXPECT_THAT(script, HasSubstr("set title 'a'' system ''touch"));
  EXPECT_THAT(script, Not(HasSubstr("\nsystem")));
  EXPECT_THAT(script, Not(HasSubstr("\x1b")));
}

// 480 pixels, letters of 16: a text of more than some 46 of them would run out of the picture (measured in a browser).
TEST(PictureScript, WrapsLongTextsAndGivesEachLineOfTheKeyItsHeight) {
  Chart chart = straight_chart();
  chart.part_title = "a title of so many words that no picture of this width has room for all of them";
  chart.lines.front().state = "a state whose name is longer than what is left beside its sample in the key";
  const std::string script = picture_script(chart, say());
  EXPECT_THAT(script, HasSubstr("set key below left Left reverse maxcols 1 width -12\n"));
  EXPECT_THAT(script, HasSubstr("set title 'a title of so many words that no picture of'.\"\\n\".'this width has"));
  EXPECT_THAT(script, HasSubstr("title 'a state whose name is longer', keyentry with lines linecolor rgb 'white' "
                                "title 'than what is left beside its', keyentry with lines linecolor rgb 'white' title "
                                "'sample in the key'"));
  chart.lines.front().state = "short";
  const auto height = [](const std::string& of) { return std::stoi(of.substr(of.find("480,") + 4)); };
  EXPECT_EQ(height(script), height(picture_script(chart, say())) + 2 * 29);
}

TEST(PictureScript, DrawsLimitsPastTheSpanFainterThanThoseWithinIt) {
  const std::string script = picture_script(straight_chart(), say());
  EXPECT_THAT(script, HasSubstr("16.85 290 261 319 NaN NaN\n"));
  EXPECT_THAT(script, HasSubstr("26.85 300 NaN NaN 270 330\n"));
  EXPECT_THAT(script, HasSubstr("using 1:5:6 with filledcurves fillcolor rgb '#eef2f6'"));
}

LogDrawing drawn_log() {
  LogDrawing drawing;
  drawing.start_second = 1'700'000'000.0;
  drawing.column_second = 40.0;
  drawing.columns.resize(3);
  drawing.columns[0][0].take(255.25F);
  drawing.columns[0][0].take(256.5F);
  drawing.columns[2][0].take(283.0F);
  drawing.columns[1][2].take(180.125F);
  drawing.defrosts = {{40.0, 80.5}};
  return drawing;
}

/// A job keeps what its log is drawn from: the picture is the same where the log is no longer there.
TEST(LogDrawing, IsReadBackAsItWasKept) {
  const LogDrawing drawing = drawn_log();
  const std::optional<LogDrawing> back = drawing_from_record(drawing_record(drawing));
  ASSERT_TRUE(back);
  const std::string script = log_picture_script(*back, say(), PictureSize{});
  EXPECT_THAT(script, HasSubstr("set multiplot"));
  EXPECT_EQ(script, log_picture_script(drawing, say(), PictureSize{}));
}

TEST(LogDrawing, TakesNoRecordThatCouldNotBeDrawn) {
  EXPECT_TRUE(drawing_from_record(R"({"column_second":40,"power":[[1,2],null]})"));
  std::string many = R"({"column_second":40,"power":[null)";
  for (int i = 0; i < 3000; ++i) many += ",null";
  for (const std::string& record :
       {std::string("{"), std::string("[]"), std::string("{}"), std::string(R"({"column_second":0})"),
        std::string(R"({"column_second":40,"power":[[2,1]]})"),
        std::string(R"({"column_second":40,"power":[["a",1]]})"),
        std::string(R"({"column_second":40,"power":[[1,1e300]]})"), std::string(R"({"column_second":40,"power":5})"),
        std::string(R"({"column_second":40,"defrosts":[[1]]})"), many + "]}"})
    EXPECT_FALSE(drawing_from_record(record)) << record.substr(0, 80);
  EXPECT_EQ(log_picture_script(LogDrawing{}, say(), PictureSize{}), "");
}

TEST(ChartPicture, IsDrawnAndCarriesNothingOut) {
  std::filesystem::remove(trap);
  Chart chart = straight_chart(101);
  chart.part_title = hostile;
  chart.marks = {{"reading 1", 280.0, 1.0, 290.0, 4.0}};
  const std::optional<std::string> svg = chart_picture(chart, say());
  if (!svg) GTEST_SKIP() << "gnuplot is not installed";
  EXPECT_THAT(*svg, HasSubstr("<svg"));
  EXPECT_THAT(*svg, HasSubstr("Resistance [Ω]"));
  EXPECT_THAT(*svg, Not(HasSubstr("<script>")));
  EXPECT_FALSE(std::filesystem::exists(trap));
}

TEST(ChartPicture, OfContactsIsDrawnToo) {
  const std::optional<std::string> svg = chart_picture(testing::switching_chart(101), say());
  if (!svg) GTEST_SKIP() << "gnuplot is not installed";
  EXPECT_THAT(*svg, HasSubstr("it warmed"));
}

TEST(PictureScript, OfContactsShadesWhereGoodPartsSwitchAndNamesTheStates) {
  Chart chart = testing::switching_chart(61);  // 240 to 300 K, one point a kelvin
  chart.marks = {{"reading 1", 255.15, 2.0, 1.0, 0.0}};
  const std::string script = picture_script(chart, say());
  // It opens at 283 K when it warms (9.85 °C) and closes at 263 K when it cools (-10.15 °C).
  EXPECT_THAT(script, HasSubstr("rectangle from first 8.85, graph 0 to first 9.85, graph 1 behind"));
  EXPECT_THAT(script, HasSubstr("rectangle from first -11.15, graph 0 to first -10.15, graph 1 behind"));
  EXPECT_THAT(script, HasSubstr("set ytics ('open' 0, '50' 50, 'closed' 100)"));
  EXPECT_THAT(script, HasSubstr("\n-18 100 -20 -16 100 100\n"));
  EXPECT_THAT(script, HasSubstr("title 'it warmed: 8.9 °C to 9.9 °C'"));
}

/// A verdict on something that no chart can be drawn along.
class LimitsScript : public ::testing::Test {
 protected:
  std::string script(std::optional<AnyQuantity> lower, std::optional<AnyQuantity> upper, const Chart* chart = nullptr) {
    Verdict verdict;
    Finding finding;
    finding.outcome = Outcome::within_limits;
    finding.measured = AnyQuantity(Dimension::resistance, 100.0);
    finding.measured_uncertainty = 3.0;
    finding.limits = {lower, upper};
    verdict.findings = {finding};
    const Evidence evidence(descriptor_, {}, MeterSet({testing::basic_meter("0 ohm")}));
    const VerdictReport report{descriptor_, verdict, evidence, {}, 0.95, {}, {}, {}};
    return limits_script(report, chart, say());
  }
  /// Of a figure that two rules hold against the same limits.
  std::string script_of_two_rules() {
    Verdict verdict;
    Finding& finding = verdict.findings.emplace_back();
    finding.outcome = Outcome::within_limits;
    finding.measured = ohms(100.0);
    finding.measured_uncertainty = 3.0;
    finding.limits = {ohms(90.0), ohms(120.0)};
    verdict.findings.push_back(verdict.findings.front());
    const Evidence evidence(descriptor_, {}, MeterSet({testing::basic_meter("0 ohm")}));
    const VerdictReport report{descriptor_, verdict, evidence, {}, 0.95, {}, {}, {}};
    return limits_script(report, nullptr, say());
  }
  /// Of one figure alone, for a reader who types degrees Fahrenheit.
  std::string script_in_fahrenheit(AnyQuantity measured, AnyQuantity lower, AnyQuantity upper) {
    UnitPreferences typed;
    typed.prefer(*Unit::named("degF", Dimension::temperature));
    Finding finding;
    finding.outcome = Outcome::out_of_limits;
    finding.measured = measured;
    finding.measured_uncertainty = 0.001 * measured.value_in_si();
    finding.limits = {lower, upper};
    Verdict verdict;
    verdict.findings = {finding};
    const Evidence evidence(descriptor_, {}, MeterSet({testing::basic_meter("0 ohm")}));
    const VerdictReport report{descriptor_, verdict, evidence, {}, 0.95, {}, {}, {}};
    return limits_script(report, nullptr, Sentences(typed));
  }
  /// The same beside a winding and its insulation, both read: 100 ohm and that.
  std::string script_of_insulation(std::string_view shown, const Chart& chart) {
    Descriptor descriptor = descriptor_;
    descriptor.measurands.push_back({"insulation", "Insulation", Dimension::resistance, "Mohm"});
    const std::vector<Reading> readings{
        testing::resistance_reading("100 ohm"),
        {.measurand = "insulation", .observed = parse_observed(shown, Dimension::resistance)}};
    const Evidence evidence(descriptor, readings, MeterSet({testing::basic_meter("0 ohm")}));
    Verdict verdict;
    for (const PreparedReading& reading : evidence.readings()) {
      Finding& finding = verdict.findings.emplace_back();
      finding.outcome = Outcome::within_limits;
      finding.measured = ohms(reading.value.value() * (reading.measurand == 0 ? 1.03 : 1.0));  // moved to 25 °C
      finding.measured_uncertainty = reading.value.standard_uncertainty();
      finding.limits.lower = ohms(reading.measurand == 0 ? 90.0 : 1e6);
    }
    const VerdictReport report{descriptor, verdict, evidence, readings, 0.95, {}, {}, {}};
    return limits_script(report, &chart, say());
  }
  static AnyQuantity ohms(double value) { return {Dimension::resistance, value}; }
  const Descriptor& descriptor_ = testing::charted_descriptor();
};

TEST_F(LimitsScript, DrawsTheReadingWithItsDoubtOnTheSpanOfGoodParts) {
  const std::string both = script(ohms(90.0), ohms(120.0));
  EXPECT_THAT(both, HasSubstr("rectangle from 90, 0.2 to 120, 0.8"));
  EXPECT_THAT(both, HasSubstr("\n100 0.5 94.8038476 105.196152\n"));  // 100 ± √3·3, rectangular (GUM 4.3.7)
  EXPECT_THAT(both, HasSubstr("a good one: 90.00 Ω to 120.0 Ω"));
  // Without an upper limit the span goes on to the edge; over decades the axis is logarithmic.
  EXPECT_THAT(script(ohms(1.0), std::nullopt), AllOf(HasSubstr("set logscale x"), HasSubstr("1.000 Ω or more")));
  EXPECT_EQ(script(std::nullopt, std::nullopt), "");
}

TEST_F(LimitsScript, TellsAShareFromItsLimitAndASlopeFromATemperature) {
  const auto share = [](double value) { return AnyQuantity(Dimension::ratio, value); };
  const std::string shares = script_in_fahrenheit(share(1.1458), share(0.9431), share(1.0579));
  EXPECT_THAT(shares, AllOf(HasSubstr(": 114.6 %"), HasSubstr("a good one: 94.31 % to 105.8 %")));
  const auto slope = [](double kelvin) { return AnyQuantity(Dimension::temperature_difference, kelvin); };
  const std::string slopes = script_in_fahrenheit(slope(3898.7), slope(3783.5), slope(3898.9));
  EXPECT_THAT(slopes, AllOf(HasSubstr(": 3899 K"), HasSubstr("[K] a good one: 3784 K to 3899 K")));
  EXPECT_THAT(script_in_fahrenheit(slope(2.0), slope(-1.0), slope(1.0)), HasSubstr(": 3.6 °F"));
}

TEST_F(LimitsScript, DrawsAFigureThatTwoRulesHoldOnce) { EXPECT_THAT(script_of_two_rules(), HasSubstr("layout 1,1")); }

TEST_F(LimitsScript, LeavesOutWhatTheChartBesideItShows) {
  const Chart chart = straight_chart();
  EXPECT_EQ(script(ohms(90.0), ohms(120.0), &chart), "");
  const Chart of_contacts = testing::switching_chart();
  EXPECT_NE(script(ohms(90.0), ohms(120.0), &of_contacts), "");
}

/// Both are ohms, and only the winding is on the chart; a winding that touches its frame has no more than it.
TEST_F(LimitsScript, DrawsTheInsulationBesideAChartOfOhms) {
  const Chart chart = straight_chart();
  for (const char* shown : {"50 Mohm", "0.12 kohm"}) {
    const std::string drawn = script_of_insulation(shown, chart);
    EXPECT_THAT(drawn, AllOf(HasSubstr("1.000 MΩ or more"), HasSubstr("layout 1,1"))) << shown;
  }
}

}  // namespace
}  // namespace ohmwright
