// Ratings from measured rows, through the real program.

#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

Ran curve(std::vector<std::string> words) {
  words.insert(words.begin(), {"curve", "defrost-sensor"});
  return run_program(words);
}

/// A folder of its own, gone afterwards.
class Curve : public ::testing::Test {
 protected:
  Curve() { std::filesystem::create_directories(folder_); }
  ~Curve() override { std::filesystem::remove_all(folder_); }
  Curve(const Curve&) = delete;
  Curve& operator=(const Curve&) = delete;

  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  std::string file(const std::string& name, const std::string& text) const {
    std::ofstream(path(name)) << text;
    return path(name);
  }

 private:
  std::filesystem::path folder_ =
      std::filesystem::temp_directory_path() / ("ohmwright-curve-test-" + std::to_string(::getpid()));
};

/// R = 10 kΩ·exp(3977 K·(1/T − 1/298.15 K)), the beta equation (IEC 60539-1, from memory), worked by hand to six
/// digits.
constexpr const char* beta_rows =
    "at [degC],resistance [ohm]\n"
    "-20,107095\n"
    "-10,58951.5\n"
    "0,33900.4\n"
    "10,20271.6\n"
    "20,12554.7\n"
    "30,8025.15\n";

TEST_F(Curve, RowsOfABetaCurveGiveItBack) {
  const Ran ran = curve({"--series", file("rows.csv", beta_rows), "--format", "json"});
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  const auto json = nlohmann::json::parse(ran.out);
  bool found = false;
  for (const auto& form : json.at("forms")) {
    if (form.at("form") != "beta") continue;
    for (const auto& figure : form.at("figures")) {
      if (figure.at("name") != "beta") continue;
      found = true;
      EXPECT_NEAR(figure.at("value").get<double>(), 3977.0, 3.0);
    }
  }
  EXPECT_TRUE(found) << ran.out;
}

TEST_F(Curve, TypedRowsAreRowsToo) {
  const Ran ran = curve({"107.1k@-20C", "33.9k@0C", "20.2k@10C", "12.57k@20C", "8.03k@30C"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("ratings from 5 rows"));
}

/// Standard uncertainty of the beta that these rows give [K].
double doubt_of_beta(const std::vector<std::string>& rows) {
  std::vector<std::string> words = rows;
  words.insert(words.end(), {"--format", "json"});
  const auto json = nlohmann::json::parse(curve(words).out);
  for (const auto& form : json.at("forms"))
    for (const auto& figure : form.at("figures"))
      if (figure.at("name") == "beta") return figure.at("standard_uncertainty").get<double>();
  return -1.0;
}

TEST_F(Curve, ATemperatureWithoutADoubtHasThatOfTheScatter) {
  const double bare = doubt_of_beta({"33.9004k@0C", "20.2716k@10C", "12.5547k@20C", "8.02515k@30C"});
  const double stated =
      doubt_of_beta({"33.9004k@0C ± 1K", "20.2716k@10C ± 1K", "12.5547k@20C ± 1K", "8.02515k@30C ± 1K"});
  EXPECT_GT(bare, 0.0);
  EXPECT_LT(bare, 0.1);     // rows to six digits of a beta curve scatter by a millikelvin
  EXPECT_GT(stated, 10.0);  // 1 K rectangular at four temperatures 30 K apart
}

TEST_F(Curve, ThePageNamesTheCommandThatUsesIt) {
  EXPECT_THAT(curve({"--series", file("rows.csv", beta_rows)}).out, HasSubstr("--save my-part.json"));
  EXPECT_THAT(curve({"--series", file("rows.csv", beta_rows), "--save", path("mine.json")}).out,
              AllOf(HasSubstr("Saved."), HasSubstr("--ratings")));
}

TEST_F(Curve, ARowThatBreaksTheFallIsNamedAndLeftOut) {
  std::string rows = beta_rows;
  rows.replace(rows.find("20271.6"), 7, "2027.16");
  const Ran ran = curve({"--series", file("rows.csv", rows)});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Look at these rows"), HasSubstr("line 5, left out:")));
}

TEST_F(Curve, WhatIsSavedChecksAPart) {
  const Ran saved = curve({"--series", file("rows.csv", beta_rows), "--save", path("mine.json"), "--form", "beta",
                           "--title", "Sensor of the cold room", "--source", "measured in ice and salt"});
  ASSERT_EQ(saved.exit_code, 0) << saved.err;
  const Ran checked = run_program(
      {"check", "defrost-sensor", "--ratings", path("mine.json"), "--lead-off", "20.3k", "--at", "10C ± 0.3K"});
  EXPECT_THAT(checked.out, HasSubstr("Sensor of the cold room")) << checked.err;
  EXPECT_NE(checked.exit_code, 2) << checked.err;
}

/// A part that its own ratings condemn was not fitted with the meter and leads that it was read with.
TEST_F(Curve, TheRowsOfAPartPassByTheRatingsMadeOfThem) {
  struct Made {
    std::string kind;
    std::vector<std::string> rows;
    std::vector<std::string> again;
    std::vector<std::string> said = {};
    int exit_code = 0;
  };
  // Good ohms alone clear no motor, whatever they are compared with.
  for (const Made& made :
       {Made{"heater", {"5.0@20C", "5.0@21C"}, {"5.0", "--at", "21C"}},
        Made{
            "fan-motor", {"8.4@20C", "8.5@21C"}, {"8.4", "--at", "20C"}, {"--set", "construction=capacitor-run"}, 3}}) {
    std::vector<std::string> words{"curve", made.kind};
    words.insert(words.end(), made.rows.begin(), made.rows.end());
    words.insert(words.end(), {"--leads", "0.2", "--meter", "bench", "--save", path(made.kind + ".json")});
    words.insert(words.end(), made.said.begin(), made.said.end());
    const Ran saved = run_program(words);
    ASSERT_EQ(saved.exit_code, 0) << saved.err;
    words = {"check", made.kind};
    words.insert(words.end(), made.again.begin(), made.again.end());
    words.insert(words.end(),
                 {"--lead-off", "--leads", "0.2", "--meter", "bench", "--ratings", path(made.kind + ".json")});
    const Ran checked = run_program(words);
    EXPECT_EQ(checked.exit_code, made.exit_code) << made.kind << '\n' << checked.out << checked.err;
  }
}

/// Ohms do not tell how a motor is built, and by that it is judged: it is asked for, never assumed.
TEST_F(Curve, WhatNoRowTellsIsAskedFor) {
  const std::vector<std::string> rows{"curve", "fan-motor", "8.4@20C", "8.5@21C", "--width", "200"};
  const auto with = [&rows](std::vector<std::string> more) {
    more.insert(more.begin(), rows.begin(), rows.end());
    return run_program(more);
  };
  EXPECT_THAT(with({}).out, AllOf(HasSubstr("say where the form is kept, with --set FIGURE=VALUE"),
                                  HasSubstr("\"construction\" is missing: how the motor is built")));
  EXPECT_THAT(with({"--format", "json"}).out, Not(HasSubstr("shaded-pole")));
  const Ran refused = with({"--save", path("fan.json")});
  EXPECT_EQ(refused.exit_code, 2);
  EXPECT_EQ(refused.err,
            "ohmwright: these ratings cannot be kept as they are: the field \"construction\" is missing: how the motor "
            "is built: shaded-pole, capacitor-run or electronically-commutated; what the rows do not tell is said with "
            "--set FIGURE=VALUE\n");
  EXPECT_FALSE(std::filesystem::exists(path("fan.json")));
  EXPECT_THAT(with({"--save", path("fan.json"), "--set", "construction=shaded"}).err,
              HasSubstr("construction: found \"shaded\"; expected"));
  EXPECT_THAT(with({"--save", path("fan.json"), "--set", "construction"}).err, HasSubstr("--set takes FIGURE=VALUE"));
  ASSERT_EQ(with({"--save", path("fan.json"), "--set", "construction=shaded-pole", "--set", "poles=4"}).exit_code, 0);
  const Ran shown = run_program({"ratings", path("fan.json")});
  EXPECT_EQ(shown.exit_code, 0) << shown.err;
  EXPECT_THAT(shown.out, AllOf(HasSubstr("shaded-pole"), HasSubstr("poles")));
}

/// What was only said is told from what was measured: in the file, and by whoever reads it.
TEST_F(Curve, WhatWasSetIsNeverCalledMeasured) {
  const auto curve_of_fan = [this](std::vector<std::string> more) {
    more.insert(more.begin(), {"curve", "fan-motor", "8.4@20C", "8.5@21C", "--save", path("fan.json"), "--set",
                               "construction=shaded-pole"});
    return run_program(more);
  };
  EXPECT_EQ(
      curve_of_fan({"--set", "winding=9 ohm"}).err,
      "ohmwright: --set cannot replace \"winding\": these rows gave it, and the saved file would call measured what "
      "was only said; leave it out, or change the saved file, the figure and its source\n");
  EXPECT_THAT(curve_of_fan({"--set", "construction=capacitor-run"}).err, HasSubstr("\"construction\" twice"));
  EXPECT_FALSE(std::filesystem::exists(path("fan.json")));
  // How far good windings may be off no row tells either: the fit assumes it, and a sheet may know better.
  ASSERT_EQ(curve_of_fan({"--set", "winding_tolerance=10 %"}).exit_code, 0);
  const std::string shown = run_program({"ratings", path("fan.json"), "--width", "200"}).out;
  EXPECT_THAT(shown, HasSubstr("measured: fitted as winding to 2 rows; said with --set, not measured: construction, "
                               "winding_tolerance"));
  EXPECT_THAT(shown, AllOf(HasSubstr("said with --set, not measured"), HasSubstr("fitted from 2 rows of one part"),
                           Not(HasSubstr("common practice"))));
  ASSERT_EQ(curve_of_fan({"--source", "read in the workshop"}).exit_code, 0);
  EXPECT_THAT(run_program({"ratings", path("fan.json"), "--width", "200"}).out,
              HasSubstr("read in the workshop; said with --set, not measured: construction"));
  EXPECT_THAT(curve_of_fan({"--source", std::string(190, 'x')}).err, HasSubstr("200 are the most"));
}

TEST_F(Curve, RowsThatContradictEachOtherGiveNoRatings) {
  const Ran ran = run_program({"curve", "heater", "32@20C", "32k@20C", "--save", path("never.json")});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.out, HasSubstr("one of the units has"));
  EXPECT_FALSE(std::filesystem::exists(path("never.json")));
}

TEST_F(Curve, SaysWhyNothingIsSaved) {
  const Ran ran = curve({"12.49k@20C", "11.6k@22C", "10.2k@24C", "--save", path("never.json")});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err,
            "ohmwright: nothing is saved: These rows lie too close together: they tell the beta to ± 8 % at best, and "
            "elsewhere a good part would be condemned. No ratings are made of them: add a row 20 K away.\n");
  EXPECT_FALSE(std::filesystem::exists(path("never.json")));
}

/// A thermometer that is off is off in every row of a passage: half the gap of 1 K and the usual 1 K, both rectangular,
/// are sqrt(0.5^2 + 1^2)/sqrt 3 = 0.65 K (GUM 4.3.7).
TEST_F(Curve, ATripPointIsNoSurerThanItsThermometer) {
  const Ran ran = run_program({"curve", "bimetal-thermostat", "--series",
                               file("gap.csv",
                                    "time,at [degC],state\n0,10,closed\n60,11,closed\n120,12,closed\n"
                                    "180,13,open\n240,14,open\n"),
                               "--format", "json"});
  ASSERT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("0.645"));
}

TEST_F(Curve, APageIsNotWrittenWhereRatingsAreExpected) {
  EXPECT_THAT(curve({"33k@0C", "20k@10C", "--out", path("mine.json")}).err,
              AllOf(HasSubstr("--out writes the page, which is text; for ratings write --save"),
                    HasSubstr("for the figures as JSON add --format json")));
}

TEST_F(Curve, RefusalsSayWhatWasExpected) {
  EXPECT_THAT(curve({}).err, HasSubstr("a curve needs rows: name a table with --series FILE, or type them, such as "
                                       "32.7k@0C 10.0k@25C"));
  EXPECT_THAT(curve({"33k@0C", "20k", "19k@10C"}).err,
              HasSubstr("reading 2 stands without --at, and a row of a curve needs it"));
  EXPECT_THAT(curve({"33k@0C", "--name", "mine"}).err, HasSubstr("--name says what --save writes; add --save FILE"));
  EXPECT_THAT(curve({"33k@0C", "--of", "speed"}).err, HasSubstr("a defrost-sensor has no reading called \"speed\""));
  const Ran badly_named = curve({"--series", file("rows.csv", beta_rows), "--save", path("My Sensor.json")});
  EXPECT_EQ(badly_named.exit_code, 2);
  EXPECT_THAT(badly_named.err, HasSubstr("the ratings cannot be called \"My Sensor\""));
  EXPECT_FALSE(std::filesystem::exists(path("My Sensor.json")));
}

TEST_F(Curve, ANarrowTableNamesTheRowsAsItsRemarksDo) {
  const std::string rows =
      file("rows.csv", "at,resistance\n0C,32.65k\n10C,19.9k\n20C,12.49k\n30C,8.06k\n35C,9.9k\n40C,5.32k\n");
  const Ran ran = curve({"--series", rows, "--width", "40"});
  EXPECT_THAT(ran.out, AllOf(HasSubstr("line 6, left out"), HasSubstr("\n  6 *  35.0 °C"))) << ran.err;
}

TEST_F(Curve, AReportNeverTakesThePlaceOfItsRows) {
  const std::string rows = file("rows.csv", beta_rows);
  const Ran ran = curve({"--series", rows, "--out", rows});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("--out would overwrite what --series reads; choose another name"));
  EXPECT_EQ(curve({"--series", rows}).exit_code, 0);  // it is still there
}

TEST_F(Curve, OhmsOnALivePartAreRefusedHereToo) {
  EXPECT_THAT(curve({"33k@0C", "--live"}).err, HasSubstr("is ohms on a live part"));
  EXPECT_THAT(run_program({"chart", "defrost-sensor", "11.0k@23C", "--live", "--ratings", "ntc-10k-b3977"}).err,
              HasSubstr("is ohms on a live part"));
}

TEST_F(Curve, AnOptionWithoutItsValueIsCalledByItsOwnName) {
  EXPECT_THAT(curve({"33k@0C", "--format"}).err, HasSubstr("--format needs a value: FORMAT"));
}

TEST_F(Curve, RowsThatGiveNoFormAreRefusedWithTheirReasons) {
  const Ran ran = curve({"OL@0C", "OL@10C"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("left out"), HasSubstr("No ratings could be made from these rows")));
}

TEST_F(Curve, AThermostatsSeriesGivesItsTripPoint) {
  const Ran ran = run_program({"curve", "bimetal-thermostat", "--series",
                               file("warm.csv",
                                    "time,at [degC],state\n0,5,closed\n60,9,closed\n120,12.2,closed\n"
                                    "180,13.4,open\n240,16,open\n")});
  EXPECT_EQ(ran.exit_code, 0) << ran.err << ran.out;
  EXPECT_THAT(ran.out, HasSubstr("12.8"));
}

}  // namespace
}  // namespace ohmwright
