#include <cmath>

#include <gtest/gtest.h>

#include "curves/chart_curve.hpp"
#include "curves/platinum_curve.hpp"
#include "rules/deviation.hpp"
#include "sensor_fixture.hpp"

// A two-point beta is not a freezer curve: where a real sensor stands against it, and what the model's own error does.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

/// 10 kohm, B25/85 = 3977 K with nothing said of its span, R25 ± 1 %, B ± 1 %.
SensorRatings two_point_beta() {
  return {std::make_shared<BetaCurve>(beta_3977()), Tolerance(ReferenceAndSlope{0.01, 0.01, celsius(25)}), {}, {}};
}

std::string kilohm(double ohms) { return std::to_string(ohms / 1000.0) + " kohm"; }

TEST(ModelError, VanishesAtTheTwoTemperaturesOfTheBetaValue) {
  const BetaCurve curve(beta_3977());
  EXPECT_NEAR(curve.model_error(celsius(25)), 0.0, 1e-15);
  EXPECT_NEAR(curve.model_error(celsius(85)), 0.0, 1e-15);
  EXPECT_GT(curve.model_error(celsius(50)), 0.0);
  EXPECT_LT(curve.model_error(celsius(0)), 0.0);
}

TEST(ModelError, CoversThePublishedMaterialFromMinusFortyTo85) {
  const BetaCurve beta(beta_3977());
  const FourCoefficientCurve real = published_four_coefficient();
  for (double t = -40; t <= 85; t += 1) {
    const double off = real.log_resistance(celsius(t)) - beta.log_resistance(celsius(t));
    EXPECT_LE(std::abs(off), std::abs(beta.model_error(celsius(t))) + 2e-4) << t;
  }
}

TEST(ModelError, VanishesWhereTheSheetVouchesForTheCurve) {
  BetaCurve::Figures figures = beta_3977();
  figures.stated_span = TemperatureSpan{celsius(-20), celsius(60)};
  const BetaCurve curve(figures);
  EXPECT_EQ(curve.model_error(celsius(-20)), 0.0);
  EXPECT_EQ(curve.model_error(celsius(40)), 0.0);
  EXPECT_LT(curve.model_error(celsius(-21)), 0.0);
  EXPECT_LT(curve.model_error(celsius(61)), 0.0);
  EXPECT_NEAR(curve.model_error(celsius(-20.001)), 0.0, 1e-4);  // no jump at the edge
}

TEST(ModelError, OfPlatinumOutsideItsClassIsThatOfTheWidestClass) {
  const PlatinumCurve curve(ohm(1000), PlatinumClass::aa);
  EXPECT_EQ(curve.model_error(celsius(-50)), 0.0);
  EXPECT_NEAR(curve.model_error(celsius(-60)), 1.2 * curve.log_slope(celsius(-60)), 1e-15);
}

std::vector<CurvePoint> two_rows() { return {{celsius(-40), ohm(332100)}, {celsius(50), ohm(3605)}}; }

TEST(ModelError, OfAChartVanishesInItsRowsAndIsLargestMidwayBetweenThem) {
  const ChartCurve curve(two_rows());
  EXPECT_NEAR(curve.model_error(celsius(-40)), 0.0, 1e-15);
  EXPECT_NEAR(curve.model_error(celsius(50)), 0.0, 1e-15);
  const double cold = 1.0 / celsius(-40).kelvin();
  const double hot = 1.0 / celsius(50).kelvin();
  const double middle = 6e5 / 8.0 * (cold - hot) * (cold - hot);  // bend·h²/8
  EXPECT_NEAR(curve.model_error(Temperature::from_kelvin(2.0 / (cold + hot))), middle, 1e-12);
  for (double t = -39; t < 50; t += 1) {
    EXPECT_GT(curve.model_error(celsius(t)), 0.0) << t;
    EXPECT_LE(curve.model_error(celsius(t)), middle + 1e-12) << t;
  }
  EXPECT_LT(curve.model_error(celsius(-41)), 0.0);  // beyond the rows the true curve lies below the straight line
  EXPECT_NEAR(curve.model_error(celsius(-40.001)), 0.0, 1e-4);
}

// By ten kelvin the doubt is 0.02 to 0.04 K; by ninety it is 2 K, and no verdict passes over that.
TEST(ModelError, OfAChartIsAnUncertaintyNeverAWiderLimit) {
  const SensorRatings sparse = ratings_with(std::make_shared<ChartCurve>(two_rows()));
  const Findings findings = judge(sparse, {{.value = "25.34 kohm", .at = "5 degC +- 0.2 K"}});
  const Finding& finding = finding_of(findings, resistance_at_temperature);
  EXPECT_EQ(finding.outcome, Outcome::undecided);
  EXPECT_NEAR(finding.limits.upper->value_in_si() / argument(finding, "nominal"), 1.05, 1e-12);
  std::vector<CurvePoint> rows = two_rows();
  rows.push_back({celsius(0), ohm(32550)});
  rows.push_back({celsius(10), ohm(19870)});
  const SensorRatings dense = ratings_with(std::make_shared<ChartCurve>(rows));
  EXPECT_EQ(outcome_of(judge(dense, {{.value = "25.34 kohm", .at = "5 degC +- 0.2 K"}}), resistance_at_temperature),
            Outcome::within_limits);
}

// Published material at -20 °C: 96 360 ohm, 10.02 % below the two-point beta.
TEST(ModelError, PerfectSensorAtMinusTwentyIsNotCondemnedByATwoPointBeta) {
  const SensorRatings ratings = two_point_beta();
  const Findings findings = judge(ratings, {{.value = kilohm(96360.0), .at = "-20 degC +- 0.2 K"}});
  EXPECT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::undecided);
  EXPECT_NEAR(argument(finding_of(findings, resistance_at_temperature), "deviation_percent"), -10.02, 0.01);
}

TEST(ModelError, DriftedPartDoesNotPassBecauseTheModelIsOff) {
  const SensorRatings ratings = two_point_beta();
  const double drifted_onto_the_beta = 107094.87;  // the real part, 11 % high: just what the beta expects
  const Findings findings = judge(ratings, {{.value = kilohm(drifted_onto_the_beta), .at = "-20 degC +- 0.2 K"}});
  EXPECT_EQ(outcome_of(findings, resistance_at_temperature), Outcome::undecided);
}

TEST(ModelError, AGrossFaultIsStillCondemnedThere) {
  const SensorRatings ratings = two_point_beta();
  EXPECT_EQ(outcome_of(judge(ratings, {{.value = "180 kohm", .at = "-20 degC +- 0.2 K"}}), resistance_at_temperature),
            Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(ratings, {{.value = "60 kohm", .at = "-20 degC +- 0.2 K"}}), resistance_at_temperature),
            Outcome::out_of_limits);
}

TEST(ModelError, SamePartPassesThereByItsOwnCurve) {
  const SensorRatings ratings{
      std::make_shared<FourCoefficientCurve>(
          FourCoefficientCurve::Coefficients{ohm(10000), -14.6337, 4791.842, -115334, -3.730535e6},
          TemperatureSpan{celsius(-40), celsius(85)}),
      Tolerance(OfResistance{0.05}),
      {},
      {}};
  EXPECT_EQ(
      outcome_of(judge(ratings, {{.value = kilohm(96360.0), .at = "-20 degC +- 0.2 K"}}), resistance_at_temperature),
      Outcome::within_limits);
}

TEST(ModelError, StandsInTheBudgetAsTheCurve) {
  const SensorRatings ratings = two_point_beta();
  const Verdict verdict = verdict_on(&ratings, {{.value = kilohm(96360.0), .at = "-20 degC +- 0.2 K"}});
  ASSERT_FALSE(verdict.budget.empty());
  EXPECT_EQ(verdict.budget[0].source, Evidence::model_source);
  EXPECT_GT(verdict.budget[0].share, 0.9);
}

// Continuous: no probability jumps as the temperature passes the edge of the span.
TEST(ModelError, NoJumpAtTheEdgeOfTheSpan) {
  BetaCurve::Figures figures = beta_3977();
  figures.stated_span = TemperatureSpan{celsius(0), celsius(85)};
  const SensorRatings ratings = ratings_with(std::make_shared<BetaCurve>(figures));
  const auto p = [&](const char* at) {
    return finding_of(judge(ratings, {{.value = "34.5 kohm", .at = at}}), resistance_at_temperature).probability;
  };
  // A micro-kelvin further the reading itself means 3e-7 less; a jump would not shrink with the step.
  EXPECT_NEAR(p("0 degC +- 0.5 K"), p("-0.000001 degC +- 0.5 K"), 1e-6);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
