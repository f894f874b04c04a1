// Limits that are formulas of ratings and conditions.

#include <array>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "bad_file.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;

constexpr const char* nominal = R"({"nominal": {"rating": "nominal"}, "tolerance": [{"rating": "tolerance"}, "7 %"]})";
constexpr const char* coefficient =
    R"("temperature_coefficient": {"condition": "part_temperature", "per_kelvin": "0.38535645472061657 %", "reference": "25 degC"},)";

/// The coil, its winding by a formula in place of the coefficient.
std::vector<Change> by_formula(const std::string& formula, const std::string& beside = R"("tolerance": "7 %")") {
  return {{nominal, R"({"nominal": {"formula": ")" + formula + R"("}, )" + beside + "}"}, {coefficient, ""}};
}

// IEC 60034-1 (from memory): copper has 1 + (t - 25)/(234.5 + 25) of its ohms at 25 °C.
constexpr const char* copper = "nominal * (234.5 K + (part_temperature - 0 degC)) / (234.5 K + 25 K)";

TEST(FormulaOfConditions, JudgesAsTheCoefficientThatSaysTheSame) {
  const auto coefficient_kind = coil();
  const auto formula_kind = coil(by_formula(copper));
  for (const char* value : {"80 ohm", "88 ohm", "75 ohm", "90 ohm"})
    for (const char* at : {"25 degC", "0 degC", "40 degC"}) {
      const std::string ratings = R"({"nominal": "82 ohm"})";
      const Judged by_coefficient = judged(*coefficient_kind, ratings, {{.value = value, .at = at}});
      const Judged got = judged(*formula_kind, ratings, {{.value = value, .at = at}});
      EXPECT_EQ(got.outcome("winding"), by_coefficient.outcome("winding")) << value << at;
      EXPECT_EQ(got.text("winding"), by_coefficient.text("winding")) << value << at;
      // The two differ only where the doubt of the temperature bends the line: not here, since both are straight.
      EXPECT_NEAR(got.of("winding").probability, by_coefficient.of("winding").probability, 1e-9) << value << at;
      EXPECT_NEAR(got.of("winding").limits.lower->value_in_si(),
                  by_coefficient.of("winding").limits.lower->value_in_si(), 1e-9);
    }
}

TEST(FormulaOfConditions, FusesReadingsAtSeveralTemperatures) {
  const auto kind = coil(by_formula(copper));
  const Judged got = judged(*kind, R"({"nominal": "82 ohm"})",
                            {{.value = "82 ohm", .at = "25 degC"}, {.value = "78.84 ohm", .at = "15 degC"}});
  EXPECT_EQ(got.outcome("winding"), Outcome::within_limits);
  EXPECT_NEAR(got.of("winding").measured->value_in_si(), 81.8, 0.3);  // told at the first of them, leads taken off
  EXPECT_NEAR(got.of("winding").judged->value(), 1.0, 0.01);          // a share of the nominal value
  EXPECT_NEAR(got.argument("winding", "at"), 298.15, 1e-9);
}

TEST(FormulaOfConditions, TellsWhatItLacks) {
  const auto kind = coil(by_formula(copper));
  EXPECT_EQ(judged(*kind, "", {{.value = "82 ohm", .at = "25 degC"}}).text("winding"), "no-figure");
  EXPECT_EQ(judged(*kind, R"({"nominal": "82 ohm"})", {{.value = "82 ohm"}}).text("winding"), "no-condition");
  // Below -234.5 °C the line of copper has no ohms left.
  EXPECT_EQ(judged(*kind, R"({"nominal": "82 ohm"})", {{.value = "82 ohm", .at = "-250 degC"}}).text("winding"),
            "out-of-reach");
}

TEST(FormulaOfConditions, IsExpectedAndModelled) {
  const auto kind = coil(by_formula(copper));
  const auto part = part_of(*kind, R"({"nominal": "82 ohm"})");
  const std::array<ConditionValue, 1> cold{{{0, 273.15}}};
  const auto expected = part->expect(0, Situation(cold));
  ASSERT_TRUE(expected.has_value());
  EXPECT_NEAR(expected->nominal.value_in_si(), 82.0 * 234.5 / 259.5, 1e-9);
  EXPECT_NEAR(expected->limits.upper->value_in_si(), 1.07 * 82.0 * 234.5 / 259.5, 1e-9);
  std::vector<Element> elements;
  ASSERT_EQ(part->electrical_model(not_found, Situation(cold), elements), ModelAnswer::stated);
  EXPECT_NEAR(elements.front().value_in_si, 82.0 * 234.5 / 259.5, 1e-9);
}

TEST(FormulaOfConditions, TakesSeveralWithTheirDoubts) {
  const auto kind = coil(
      {{R"("limits": {"nominal_of_load": {"voltage": {"rating": "voltage"}, "power": {"rating": "power"}}, "tolerance_below": "10 %", "tolerance_above": "5 %"},)",
        R"x("limits": {"nominal": {"formula": "power / voltage * line_voltage / voltage / (1 + 0.004 * (part_temperature - 20 degC) / (1 K))"}, "tolerance": "10 %"},)x"},
       {R"("proportional_to": {"condition": "line_voltage", "reference": {"rating": "voltage"}},)", ""}});
  const std::string ratings = R"({"nominal": "82 ohm", "power": "1.3 kW", "voltage": "230 V"})";
  const auto read = [&](const std::string& at, const std::string& line) {
    return judged(*kind, ratings,
                  {{.value = "5.6 A", .at = at, .measurand = "current", .supply = Supply::live, .line = line}});
  };
  EXPECT_EQ(read("20 degC", "").text("current"), "no-condition");
  const Judged sharp = read("20 degC +- 0.01 K", "230 V +- 0.01 V");
  const Judged doubted = read("20 degC +- 20 K", "230 V +- 10 V");
  EXPECT_NEAR(sharp.of("current").limits.upper->value_in_si(), 1.1 * 1300.0 / 230.0, 1e-9);
  const double of_voltage = 10.0 / 230.0 / std::sqrt(3.0);  // rectangles, GUM 4.3.7; relative, since it is a quotient
  const double of_temperature = 0.004 * 20.0 / std::sqrt(3.0);
  const double meter = sharp.of("current").judged->standard_uncertainty() / sharp.of("current").judged->value();
  const double all = doubted.of("current").judged->standard_uncertainty() / doubted.of("current").judged->value();
  EXPECT_NEAR(all, std::hypot(of_voltage, of_temperature, meter), 1e-4);
}  // namespace

TEST(FormulaOfRatings, StandsWhereverAFigureDoes) {
  const auto kind = coil({{R"("limits": {"nominal": {"rating": "nominal"},)",
                           R"("limits": {"nominal": [{"formula": "voltage^2 / power"}, {"rating": "nominal"}],)"}});
  const auto nominal_of = [&](const std::string& ratings) {
    return judged(*kind, ratings, {{.value = "82 ohm", .at = "25 degC"}}).argument("winding", "nominal");
  };
  EXPECT_NEAR(nominal_of(R"({"nominal": "82 ohm"})"), 82.0, 1e-9);
  EXPECT_NEAR(nominal_of(R"({"nominal": "82 ohm", "power": "660 W", "voltage": "230 V"})"), 230.0 * 230.0 / 660.0,
              1e-9);
  EXPECT_THROW(part_of(*kind, R"({"nominal": "82 ohm", "power": "0 W", "voltage": "230 V"})"), std::runtime_error);
}

class WrongFormulas : public ::testing::TestWithParam<BadFile> {};

TEST_P(WrongFormulas, AreToldWithLinePointerAndPlace) { EXPECT_EQ(refusals_of(GetParam()), GetParam().reasons); }

const std::vector<BadFile> bad_files = {
    {"OhmsAndKelvins",
     by_formula("nominal + (part_temperature - 20 degC)"),
     {R"(line 26, /rules/0/limits/nominal/formula: character 9 ("+ (part_temperature "): a resistance and a temperature difference cannot be added)"}},
    {"OfAnotherDimension",
     by_formula("power / voltage"),
     {"line 26, /rules/0/limits/nominal/formula: the formula gives a current; a resistance belongs here"}},
    {"UnknownName",
     by_formula("nominel"),
     {R"(line 26, /rules/0/limits/nominal/formula: character 1 ("nominel"): there is no condition and no figure of the ratings "nominel"; did you mean "nominal"?)"}},
    {"WithoutANumber",
     by_formula("1 ohm / 0"),
     {"line 26, /rules/0/limits/nominal/formula: the formula gives no number"}},
    {"WithATolerance",
     by_formula(copper, R"("tolerance": "7 ohm")"),
     {"line 26, /rules/0/limits/nominal/formula: a nominal value that moves with a condition has its tolerance in "
      "percent"}},
    {"AndACoefficient",
     {{nominal, std::string(R"({"nominal": {"formula": ")") + copper + R"("}, "tolerance": "7 %"})"}},
     {"line 26, /rules/0/limits/nominal/formula: the formula moves with its conditions already; leave out what moves "
      "the limits beside it"}},
    {"OfAConditionInATolerance",
     {{R"([{"rating": "tolerance"}, "7 %"])", R"x({"formula": "(part_temperature - 0 degC) / (1 K)"})x"}},
     {"line 26, /rules/0/limits/tolerance/formula: no condition can stand in this formula: what moves with a condition "
      "is the nominal value of limits, or a limit that stands alone"}},
    {"OfBothSorts",
     {{R"({"nominal": {"rating": "nominal"})", R"({"nominal": {"rating": "nominal", "formula": "nominal"})"}},
     {R"(line 26, /rules/0/limits/nominal: a figure is a quantity, or has either "rating" or "formula")"}},
    {"WithAnOffset",
     {{R"({"nominal": {"rating": "nominal"})", R"({"nominal": {"formula": "nominal", "offset": "1 ohm"})"}},
     {"line 26, /rules/0/limits/nominal/offset: what is added to a formula stands in the formula"}},
};

INSTANTIATE_TEST_SUITE_P(Formulas, WrongFormulas, ::testing::ValuesIn(bad_files),
                         [](const auto& bad) { return bad.param.name; });

}  // namespace
}  // namespace ohmwright::kind_file
