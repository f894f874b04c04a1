#include <clocale>

#include <gmock/gmock.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>
#include <ohmwright/report/fitting_report.hpp>

#include "test_kind.hpp"

namespace ohmwright {
namespace {

using ::testing::HasSubstr;

AnyQuantity kelvin(double value) { return {Dimension::temperature, value}; }
AnyQuantity difference(double value) { return {Dimension::temperature_difference, value}; }

MeasuredRow row(double at, double ohms) {
  return {kelvin(at), 0.0, StatedValue{AnyQuantity(Dimension::resistance, ohms), {}, Unit::si(Dimension::resistance)}};
}

Fitting fitting() {
  FittedRatings form;
  form.form = "straight";
  form.ratings = ValueNode(ValueNode::Members{{"slope", ValueNode(std::string("3977 K"), "", 0)}}, "", 0);
  form.figures = {{"slope", 3977.123456, 12.3, "K"}, {"exact", 2.0, 0.0, ""}};
  form.residuals = {difference(0.0039), difference(-0.0062)};
  form.standard_deviation = difference(0.003886);
  form.from = kelvin(233.15);
  form.to = kelvin(323.15);
  return {{form},
          {{1, true, {"slipped", "it reads {value}"}, {{"value", AnyQuantity(Dimension::resistance, 8059.0)}}}}};
}

class FittingReports : public ::testing::Test {
 protected:
  FittingReports() { std::setlocale(LC_CTYPE, "C.UTF-8"); }  // columns are counted in characters

  const std::vector<MeasuredRow> rows_{row(273.15, 32550.0), row(303.15, 8059.0)};
  const std::vector<std::string> names_{"line 2", "line 3"};
  const FitRequest request_{0, 0, rows_};
  const Fitting fitting_ = fitting();
  const FittingReport report_{testing::test_descriptor(), request_, fitting_, names_};
  const Sentences say_{UnitPreferences{}};
};

TEST_F(FittingReports, SayFirstWhichRowsBreakThePattern) {
  const std::string page = fitting_page(report_, say_, {80, false});
  EXPECT_THAT(page, HasSubstr("Test part: ratings from 2 rows\n"));
  EXPECT_THAT(page, HasSubstr("  - line 3, left out: it reads 8.059 kΩ\n"));
  EXPECT_THAT(page, HasSubstr("straight: holds from -40.0 °C to 50.0 °C; its rows lie 3.89 mK from it"));
  EXPECT_THAT(page, HasSubstr("slope = 3977 K, standard uncertainty 12 K"));
  EXPECT_THAT(page, HasSubstr("exact = 2\n"));
  EXPECT_THAT(page, HasSubstr("How far each row lies from the curve, in K (* left out)\n"
                              "                     straight\n"
                              "  line 2     0.0 °C    +0.004\n"
                              "  line 3 *  30.0 °C    -0.006\n"));
}

TEST_F(FittingReports, NumberTheRowsWhereTheirNamesDoNotFit) {
  const std::vector<std::string> names{"a long name of the first row", "and of the second"};
  const std::string page = fitting_page({testing::test_descriptor(), request_, fitting_, names}, say_, {40, false});
  EXPECT_THAT(page, HasSubstr("  1     0.0 °C    +0.004\n  2 *  30.0 °C    -0.006\n"));
}

TEST_F(FittingReports, WriteNumbersToTheirUncertainty) {
  Fitting fitting = fitting_;
  fitting.forms[0].figures = {{"resistance", 9999.7, 170.0, "ohm"},
                              {"a", 0.0011432, 0.00000052, "1/K"},
                              {"opening", 12.8, 0.346, "degC"},
                              {"c", 9.37e-8, 3.1e-9, "1/K"}};
  const std::string page = fitting_page({testing::test_descriptor(), request_, fitting, names_}, say_, {100, false});
  EXPECT_THAT(page, HasSubstr("resistance = 10000 Ω, standard uncertainty 170 Ω\n"));
  EXPECT_THAT(page, HasSubstr("a = 1.14320e-03 1/K, standard uncertainty 5.2e-07 1/K\n"));
  EXPECT_THAT(page, HasSubstr("opening = 12.80 °C, standard uncertainty 0.35 °C\n"));
  EXPECT_THAT(page, HasSubstr("c = 9.37e-08 1/K, standard uncertainty 3.1e-09 1/K\n"));
}

TEST_F(FittingReports, SpeakFahrenheitToWhoTypedIt) {
  UnitPreferences typed;
  typed.prefer(*Unit::named("degF", Dimension::temperature));
  Fitting fitting = fitting_;
  fitting.forms[0].figures = {{"opening", 12.8, 0.346, "degC"}, {"beta", 3861.2, 7.6, "K"}};
  const std::string page =
      fitting_page({testing::test_descriptor(), request_, fitting, names_}, Sentences(typed), {100, false});
  EXPECT_THAT(page, HasSubstr("opening = 55.04 °F, standard uncertainty 0.62 °F\n"));
  EXPECT_THAT(page, HasSubstr("beta = 3861.2 K, standard uncertainty 7.6 K\n"));  // as the ratings state it
  EXPECT_THAT(page, HasSubstr("How far each row lies from the curve, in °F (* left out)\n"));
  EXPECT_THAT(page, HasSubstr("  line 2    32.0 °F    +0.007\n"));  // 0.0039 K
}

TEST_F(FittingReports, SayOnceWhatHoldsForAllRows) {
  Fitting fitting = fitting_;
  fitting.remarks = {{all_rows, false, {"flat", "they do not fall"}, {}}};
  EXPECT_THAT(fitting_page({testing::test_descriptor(), request_, fitting, names_}, say_, {80, false}),
              HasSubstr("  - all rows: they do not fall\n"));
}

TEST_F(FittingReports, SayWhenNothingCouldBeMade) {
  const Fitting nothing;
  const std::string page = fitting_page({testing::test_descriptor(), request_, nothing, names_}, say_, {80, false});
  EXPECT_THAT(page, HasSubstr("No ratings could be made from these rows."));
}

TEST_F(FittingReports, FollowTheirSchemas) {
  const Document json = parse_document(fitting_json(report_, say_), "fitting");
  for (const Problem& problem : fitting_schema().problems(json.root)) ADD_FAILURE() << problem.text;
  const Document ratings = parse_document(
      fitted_ratings_file(testing::test_descriptor(), fitting_.forms[0], {"my-part", "My part", "measured"}),
      "ratings");
  for (const Problem& problem : ratings_schema().problems(ratings.root)) ADD_FAILURE() << problem.text;
  EXPECT_EQ(*ratings.root.find("ratings")->find("slope")->text(), "3977 K");
}

}  // namespace
}  // namespace ohmwright
