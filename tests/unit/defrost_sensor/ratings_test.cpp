#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/document.hpp>

#include "rules/generic_classes.hpp"
#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

struct Read {
  std::optional<SensorRatings> ratings;
  std::vector<Problem> problems;
};

Read read(std::string_view text) {
  const Document document = parse_document(text, "test.json");
  Read result;
  result.ratings = read_ratings(document.root, result.problems);
  return result;
}

std::string first_problem(std::string_view text) {
  const Read result = read(text);
  EXPECT_FALSE(result.ratings);
  if (result.problems.empty()) return "none";
  return result.problems[0].pointer + ":" + std::to_string(result.problems[0].line) + ": " + result.problems[0].text;
}

TEST(Ratings, BetaWithItsDefaults) {
  const Read result = read(R"({"curve":{"form":"beta","reference_resistance":"10 kohm","beta":"3977 K"},
                              "tolerance":{"reference":"1 %","slope":"1 %"}})");
  ASSERT_TRUE(result.ratings);
  const Curve& curve = *result.ratings->curve;
  EXPECT_NEAR(curve.resistance(celsius(0)).value(), 33900.420850, 1e-4);
  EXPECT_EQ(curve.span().from, celsius(25));
  EXPECT_EQ(curve.span().to, celsius(85));
  EXPECT_NEAR(std::expm1(result.ratings->tolerance.at(curve, celsius(-18)).upper), 0.03296178, 1e-7);
}

TEST(Ratings, FigureMayCarryItsOwnSource) {
  const Read result = read(R"({"curve":{"form":"beta","reference_resistance":{"value":"10 kohm","source":"plate"},
      "reference_temperature":"77 degF","beta":{"value":"3977 K","source":"sheet"},"span":{"from":"-20 degC","to":"85 degC"}},
      "tolerance":{"resistance":{"value":"10 %","source":"common practice, no source"}}})");
  ASSERT_TRUE(result.ratings) << result.problems[0].text;
  EXPECT_NEAR(result.ratings->curve->resistance(celsius(25)).value(), 10000, 1e-9);
}

TEST(Ratings, SteinhartHartByPointsAndByCoefficients) {
  const Read points =
      read(R"({"curve":{"form":"steinhart-hart","points":[{"temperature":"5 degC","resistance":"25 kohm"},
      {"temperature":"25 degC","resistance":"10 kohm"},{"temperature":"45 degC","resistance":"4 kohm"}]},
      "tolerance":{"temperature":"0.5 K"}})");
  ASSERT_TRUE(points.ratings);
  EXPECT_NEAR(points.ratings->curve->resistance(celsius(0)).value(), 31482.146341, 1e-3);
  EXPECT_EQ(points.ratings->curve->span().from, celsius(5));
  const Read kilohm =
      read(R"({"curve":{"form":"steinhart-hart","a":2.854955870e-3,"b":2.028799259e-4,"c":2.614030526e-6,
      "resistance_unit":"kohm","span":{"from":"5 degC","to":"45 degC"}},"tolerance":{"temperature":"0.5 K"}})");
  ASSERT_TRUE(kilohm.ratings);
  EXPECT_NEAR(kilohm.ratings->curve->temperature(ohm(15000))->celsius(), 16.178541, 2e-6);
}

TEST(Ratings, PlatinumBringsItsToleranceByItsClass) {
  const Read result = read(R"({"curve":{"form":"iec-60751","ice_point_resistance":"1000 ohm","class":"B"}})");
  ASSERT_TRUE(result.ratings);
  EXPECT_NEAR(result.ratings->tolerance.at(*result.ratings->curve, celsius(0)).upper, 0.3 * 3.9083e-3, 1e-6);
}

TEST(Ratings, ControlAndSelfHeating) {
  const Read result = read(R"({"curve":{"form":"beta","reference_resistance":"10 kohm","beta":"3977 K"},
      "tolerance":{"resistance":"5 %"},"self_heating":{"power":"2 mW","rise":"1 K"},
      "control":{"pull_up":"10 kohm","reference_voltage":"5 V","bits":10,"sensor_to":"supply",
                 "termination_temperature":"10 degC","termination_tolerance":"2 K",
                 "curve":{"form":"beta","reference_resistance":"5 kohm","beta":"3950 K"}}})");
  ASSERT_TRUE(result.ratings) << result.problems[0].text;
  EXPECT_NEAR(*result.ratings->watts_per_kelvin, 2e-3, 1e-15);
  const Control& control = *result.ratings->control;
  EXPECT_EQ(*control.bits, 10);
  EXPECT_NEAR(control.share_of_reference(ohm(30000)), 0.25, 1e-12);
  EXPECT_NEAR(control.curve->resistance(celsius(25)).value(), 5000, 1e-9);
}

TEST(Ratings, RefusalsNameTheirPlace) {
  EXPECT_EQ(
      first_problem(R"({"curve":{"form":"beta","reference_resistance":"10 kohm",
"beta":"3977 K"}})"),
      ":1: a tolerance is missing: how far may a good part be off? Write \"tolerance\": {\"resistance\": \"5 %\"}, "
      "with its source");
  EXPECT_THAT(first_problem(R"({"curve":{"form":"beta",
"reference_resistance":"23 degC","beta":"3977 K"},"tolerance":{"resistance":"5 %"}})"),
              ::testing::StartsWith("/curve/reference_resistance:2: expected a resistance"));
  EXPECT_EQ(first_problem(R"({"curve":{"form":"beta","reference_resistance":"10 kohm ± 5 %","beta":"3977 K"},
"tolerance":{"resistance":"5 %"}})"),
            "/curve/reference_resistance:1: a rating has no ± of its own; how far good parts may be off stands under "
            "\"tolerance\"");
  EXPECT_EQ(first_problem(R"({"curve":{"form":"beta","reference_resistance":"10 kohm","beta":"3977 K"},
"tolerance":{"resistance":"120 %"}})"),
            "/tolerance/resistance:2: a tolerance lies between 0 % and 100 %, both left out, such as \"5 %\"");
  EXPECT_EQ(first_problem(R"({"curve":{"form":"beta","reference_resistance":"10 kohm","beta":"39.77 K"},
"tolerance":{"resistance":"5 %"}})"),
            "/curve:1: a slope (beta) of 39.77 K is no thermistor's; expected 1000 K to 8000 K");
}

TEST(Ratings, ChartIsRefusedWithItsRow) {
  EXPECT_EQ(
      first_problem(R"({"curve":{"form":"chart","rows":[
{"temperature":"0 degC","resistance":"32550 ohm"},
{"temperature":"10 degC","resistance":"19.87 ohm"},
{"temperature":"20 degC","resistance":"12490 ohm"}]},"tolerance":{"resistance":"5 %"}})"),
      "/curve/rows/1:3: row 2 of the chart: the unit seems to have slipped: from (0 degC, 32550 ohm) to (10 degC, "
      "19.87 ohm) ohm and kilohm are mixed");
}

TEST(Ratings, AllProblemsAreToldAtOnce) {
  const Read result = read(R"({"curve":{"form":"chart","rows":[{"temperature":"0 ohm","resistance":"32550 ohm"},
      {"temperature":"10 degC","resistance":"x"}]},"tolerance":{"resistance":"5 %"}})");
  EXPECT_EQ(result.problems.size(), 2U);
}

// The classes compiled into the plugin, for parts of which nothing is known, are those of the files beside it.
TEST(Ratings, FilesOfTheClassesHoldTheSameFigures) {
  for (const GenericClass& generic : generic_classes()) {
    const std::string path = std::string(OHMWRIGHT_SENSOR_FOLDER) + "/ratings/" + std::string(generic.name) + ".json";
    const Document document = read_document(path);
    std::vector<Problem> problems;
    const std::optional<SensorRatings> ratings = read_ratings(*document.root.find("ratings"), problems);
    ASSERT_TRUE(ratings) << path << ": " << problems.at(0).text;
    EXPECT_EQ(*document.root.find("name")->text(), generic.name);
    for (double t = -40; t <= 60; t += 7) {
      const Curve& a = *ratings->curve;
      const Curve& b = *generic.ratings.curve;
      EXPECT_NEAR(a.log_resistance(celsius(t)), b.log_resistance(celsius(t)), 1e-12) << path << t;
      EXPECT_NEAR(a.model_error(celsius(t)), b.model_error(celsius(t)), 1e-12) << path << t;
      EXPECT_NEAR(ratings->tolerance.at(a, celsius(t)).upper, generic.ratings.tolerance.at(b, celsius(t)).upper, 1e-12)
          << path << t;
    }
  }
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
