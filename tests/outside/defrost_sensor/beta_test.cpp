#include <cmath>

#include <gtest/gtest.h>

#include "curves/beta_curve.hpp"
#include "curves/chart_curve.hpp"
#include "sensor_fixture.hpp"

// Beta equation, IEC 60539-1 (from memory). Expected figures computed with numpy and GSL (two programs that share no
// code with this one), unless said otherwise.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

TEST(BetaOutside, ResistanceAtZeroAndMinusEighteen) {
  const BetaCurve curve(beta_3977());
  EXPECT_NEAR(curve.resistance(celsius(0)).value(), 33900.420850, 33900.420850 * 1e-8);
  EXPECT_NEAR(curve.resistance(celsius(-18)).value(), 94686.496086, 94686.496086 * 1e-8);
  EXPECT_NEAR(curve.resistance(celsius(23)).value(), 10942.642403, 1e-4);
  EXPECT_NEAR(curve.resistance(celsius(10)).value(), 20271.594559, 2e-4);
}

TEST(BetaOutside, TemperatureOfElevenKilohm) {
  const BetaCurve curve(beta_3977());
  EXPECT_NEAR(curve.temperature(ohm(11000))->celsius(), 22.884752, 1e-6);
}

TEST(BetaOutside, SlopeIsInPercentPerKelvin) {
  const BetaCurve curve(beta_3977());
  EXPECT_NEAR(curve.log_slope(celsius(0)), -0.05330319, 0.05330319 * 1e-6);
  EXPECT_NEAR(curve.log_slope(celsius(25)), -0.04473897, 1e-8);
  EXPECT_NEAR(curve.log_slope(celsius(-18)), -0.06108920, 1e-8);
}

// The other columns of the table of curves: beta 3435 at 10 kohm, beta 3950 at 5 kohm (half of the last digit).
TEST(BetaOutside, TableOfOtherClasses) {
  BetaCurve::Figures low = beta_3977();
  low.beta_kelvin = 3435;
  BetaCurve::Figures five = beta_3977();
  five.reference_resistance = ohm(5000);
  five.beta_kelvin = 3950;
  EXPECT_NEAR(BetaCurve(low).resistance(celsius(-18)).value(), 69700.51, 0.005);
  EXPECT_NEAR(BetaCurve(low).resistance(celsius(50)).value(), 4101.19, 0.005);
  EXPECT_NEAR(BetaCurve(five).resistance(celsius(-18)).value(), 46626.20, 0.005);
  EXPECT_NEAR(BetaCurve(five).resistance(celsius(0)).value(), 16810.30, 0.005);
}

// An open device-tree thermistor table (Apache-2.0), generated for 10 kohm, B = 3974 K, and cut to whole ohms.
TEST(BetaOutside, OpenTableOfTenKilohm3974) {
  BetaCurve::Figures figures = beta_3977();
  figures.beta_kelvin = 3974;
  const BetaCurve curve(figures);
  const std::pair<double, double> rows[] = {{-25, 146676}, {-15, 78875}, {-5, 44424}, {5, 26075}, {15, 15881},
                                            {35, 6488},    {45, 4326},   {55, 2956},  {65, 2066}, {75, 1474}};
  for (const auto& [t, r] : rows) EXPECT_EQ(std::floor(curve.resistance(celsius(t)).value()), r) << t;
}

// Interpolation between (0 °C, 32 550 ohm) and (10 °C, 19 870 ohm) straight in (1/T, ln R): mpmath, 30 digits. The
// curve the rows come from has 25 339.0 ohm there.
TEST(ChartOutside, IsInterpolatedInInverseTemperatureAndLogarithm) {
  const ChartCurve curve({{celsius(0), ohm(32550)}, {celsius(10), ohm(19870)}});
  EXPECT_NEAR(curve.resistance(celsius(5)).value(), 25319.0749, 25319.0749 * 1e-7);
  EXPECT_LT(std::abs(std::log(25339.0 / 25319.0749)), curve.model_error(celsius(5)));
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
