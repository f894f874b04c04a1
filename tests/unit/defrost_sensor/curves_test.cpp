#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "curves/chart_curve.hpp"
#include "curves/platinum_curve.hpp"
#include "curves/slope_change.hpp"
#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

template <class Make>
std::string refusal(Make make) {
  try {
    make();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

std::vector<CurvePoint> chart() {
  return {{celsius(-20), ohm(96360)}, {celsius(0), ohm(32550)}, {celsius(25), ohm(10000)}, {celsius(50), ohm(3605)}};
}

/// Every form of curve, over its whole domain: T(R(T)) = T, and the slope is the derivative.
void expect_consistent(const Curve& curve) {
  const TemperatureSpan domain = curve.domain();
  for (double kelvin = domain.from.kelvin() + 0.5; kelvin < domain.to.kelvin() - 0.5; kelvin += 0.73) {
    const Temperature t = Temperature::from_kelvin(kelvin);
    const std::optional<Temperature> back = curve.temperature_at(curve.log_resistance(t));
    ASSERT_TRUE(back) << kelvin;
    EXPECT_NEAR(back->kelvin(), kelvin, 1e-8) << kelvin;
    const double h = 1e-3;
    const double slope = (curve.log_resistance(Temperature::from_kelvin(kelvin + h)) -
                          curve.log_resistance(Temperature::from_kelvin(kelvin - h))) /
                         (2 * h);
    EXPECT_NEAR(curve.log_slope(t), slope, 1e-6 * std::abs(slope) + 1e-9) << kelvin;
  }
}

TEST(Curves, InvertAndDifferentiateThemselves) {
  expect_consistent(BetaCurve(beta_3977()));
  expect_consistent(worked_steinhart_hart());
  expect_consistent(published_four_coefficient());
  expect_consistent(PlatinumCurve(ohm(1000), PlatinumClass::b));
}

TEST(Curves, ChartInvertsItselfBetweenAndBeyondItsRows) {
  const ChartCurve curve(chart());
  for (double t = -60; t < 90; t += 0.9)
    EXPECT_NEAR(curve.temperature_at(curve.log_resistance(celsius(t)))->celsius(), t, 1e-9) << t;
  for (const CurvePoint& row : chart())
    EXPECT_NEAR(curve.resistance(row.temperature).value(), row.resistance.value(), 1e-9 * row.resistance.value());
}

TEST(Curves, ChartTakesItsRowsInEitherOrder) {
  std::vector<CurvePoint> backwards = chart();
  std::reverse(backwards.begin(), backwards.end());
  EXPECT_EQ(ChartCurve(backwards).log_resistance(celsius(7)), ChartCurve(chart()).log_resistance(celsius(7)));
}

TEST(Curves, GiveNoTemperatureOutsideTheirDomain) {
  const PlatinumCurve platinum(ohm(1000), PlatinumClass::b);
  EXPECT_FALSE(platinum.temperature(ohm(5)));
  EXPECT_FALSE(platinum.temperature(ohm(1e5)));
  EXPECT_FALSE(platinum.temperature(ohm(0)));
  EXPECT_FALSE(platinum.temperature(ohm(-3)));
  EXPECT_FALSE(BetaCurve(beta_3977()).temperature(ohm(1e-6)));
  EXPECT_FALSE(published_four_coefficient().temperature(ohm(1e15)));
}

TEST(Curves, FourCoefficientDomainEndsWhereResistanceStopsFalling) {
  // With d twice as large the curve turns over in the deep cold.
  const FourCoefficientCurve curve({ohm(10000), -13.0, 4791.842, -115334, -3.2e7}, {celsius(0), celsius(50)});
  EXPECT_GT(curve.domain().from.kelvin(), 150.0);
  EXPECT_LT(curve.domain().from.kelvin(), 273.15);
  EXPECT_LT(curve.log_slope(curve.domain().from), 0.0);
}

TEST(CurveGuards, SteinhartHartNeedsPositiveCoefficients) {
  EXPECT_EQ(refusal([] {
              SteinhartHartCurve({1.4e-3, 2.37e-4, -9.9e-8}, {celsius(0), celsius(50)});
            }),
            "Steinhart-Hart needs b > 0 and c > 0, or the curve turns back on itself; check the coefficients and their "
            "order (with c = 0 the form is \"beta\")");
}

TEST(CurveGuards, ThreePointsMustDiffer) {
  auto points = worked_points();
  points[1] = points[0];
  EXPECT_EQ(refusal([&] { SteinhartHartCurve::through(points); }),
            "three points of a curve need three temperatures and three resistances that differ");
}

TEST(CurveGuards, BetaMustBeAThermistors) {
  BetaCurve::Figures figures = beta_3977();
  figures.beta_kelvin = 397.7;
  EXPECT_EQ(refusal([&] { BetaCurve curve(figures); }),
            "a slope (beta) of 397.7 K is no thermistor's; expected 1000 K to 8000 K");
  figures = beta_3977();
  figures.reference_resistance = ohm(0);
  EXPECT_EQ(refusal([&] { BetaCurve curve(figures); }), "a resistance of 0 ohm is no sensor; write one above 0 ohm");
  figures = beta_3977();
  figures.defined_between = {celsius(85), celsius(25)};
  EXPECT_EQ(refusal([&] { BetaCurve curve(figures); }),
            "the span 85 degC to 25 degC does not rise; write the colder temperature first");
}

TEST(CurveGuards, NotANumberIsRefused) {
  BetaCurve::Figures figures = beta_3977();
  figures.beta_kelvin = std::nan("");
  EXPECT_NE(refusal([&] { BetaCurve curve(figures); }), "accepted");
  figures = beta_3977();
  figures.reference_resistance = ohm(std::nan(""));
  EXPECT_NE(refusal([&] { BetaCurve curve(figures); }), "accepted");
}

TEST(ChartTroubles, RepeatedTemperature) {
  auto rows = chart();
  rows[2].temperature = celsius(0);
  const auto trouble = ChartCurve::trouble(rows);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(trouble->row, 2U);
  EXPECT_EQ(trouble->text, "the temperature of (0 degC, 10000 ohm) stands twice");
}

TEST(ChartTroubles, ResistanceThatDoesNotFall) {
  auto rows = chart();
  rows[2].resistance = ohm(32560);
  const auto trouble = ChartCurve::trouble(rows);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(trouble->row, 2U);
  EXPECT_EQ(trouble->text,
            "from (0 degC, 32550 ohm) to (25 degC, 32560 ohm) the resistance does not fall; a thermistor's falls as it "
            "gets warmer");
}

TEST(ChartTroubles, SlippedUnit) {
  auto rows = chart();
  rows[1].resistance = ohm(32.55);
  const auto trouble = ChartCurve::trouble(rows);
  ASSERT_TRUE(trouble);
  EXPECT_EQ(trouble->row, 1U);
  EXPECT_EQ(
      trouble->text,
      "the unit seems to have slipped: from (-20 degC, 96360 ohm) to (0 degC, 32.55 ohm) ohm and kilohm are mixed");
}

TEST(ChartTroubles, TooFewRows) {
  EXPECT_EQ(ChartCurve::trouble({{celsius(0), ohm(1)}})->text, "a chart needs at least two rows");
  EXPECT_EQ(refusal([] { ChartCurve curve({}); }), "row 1: a chart needs at least two rows");
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
