#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "curves/four_coefficient_curve.hpp"
#include "curves/steinhart_hart_curve.hpp"
#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

constexpr double relative(double value, double tolerance) { return (value < 0 ? -value : value) * tolerance; }

// The widely quoted worked set (5 °C, 25 kohm), (25 °C, 10 kohm), (45 °C, 4 kohm). Published coefficients
// 2.108508173e-3, 0.7979204727e-4, 6.535076315e-7 (carried by ten public programs); digits below also by numpy, GSL and
// mpmath.
TEST(SteinhartHartOutside, WorkedSetOfThreePoints) {
  const auto found = SteinhartHartCurve::through(worked_points());
  EXPECT_NEAR(found.a, 2.1085081731e-3, relative(2.1085081731e-3, 1e-9));
  EXPECT_NEAR(found.b, 7.9792047268e-5, relative(7.9792047268e-5, 1e-9));
  EXPECT_NEAR(found.c, 6.5350763146e-7, relative(6.5350763146e-7, 1e-9));
  EXPECT_NEAR(found.b, 0.7979204727e-4, 5e-14);  // as published
}

// numpy (closed form) and GSL (cubic root).
TEST(SteinhartHartOutside, WorkedSetBothWays) {
  const SteinhartHartCurve curve = worked_steinhart_hart();
  EXPECT_NEAR(curve.temperature(ohm(15000))->celsius(), 16.133618, 1e-6);
  EXPECT_NEAR(curve.resistance(celsius(0)).value(), 31482.146341, relative(31482.146341, 1e-8));
  EXPECT_NEAR(curve.resistance(celsius(10)).value(), 19868.139202, relative(19868.139202, 1e-8));
  EXPECT_NEAR(curve.resistance(celsius(40)).value(), 5033.192115, relative(5033.192115, 1e-8));
}

// A textbook set for a 3 kohm part; coefficients from memory, figures by GSL.
TEST(SteinhartHartOutside, TextbookSetOfThreeKilohm) {
  const SteinhartHartCurve curve({1.40e-3, 2.37e-4, 9.90e-8}, {celsius(-20), celsius(60)});
  EXPECT_NEAR(curve.temperature(ohm(3000))->celsius(), 25.507394, 1e-6);
  EXPECT_NEAR(curve.resistance(celsius(0)).value(), 10030.217595, relative(10030.217595, 1e-8));
  EXPECT_NEAR(curve.resistance(celsius(-20)).value(), 29837.681696, relative(29837.681696, 1e-8));
}

// The same three points in kilohms are another curve (mpmath): the form is not scale-free.
TEST(SteinhartHartOutside, CoefficientsFittedInKilohmKeepTheirUnit) {
  const SteinhartHartCurve curve({2.854955870e-3, 2.028799259e-4, 2.614030526e-6, ohm(1000)},
                                 {celsius(5), celsius(45)});
  EXPECT_NEAR(curve.temperature(ohm(15000))->celsius(), 16.178541, 2e-6);  // coefficients have ten digits
  EXPECT_NEAR(curve.temperature(ohm(60000))->celsius(), -14.420016, 2e-6);
  EXPECT_NEAR(curve.temperature(ohm(30000))->celsius(), 0.984756, 2e-6);
  EXPECT_NEAR(worked_steinhart_hart().temperature(ohm(60000))->celsius(), -13.861315, 1e-6);
}

// Published four-coefficient set of a 10 kohm, B25/85 = 3977 K leaded material (nine public programs); numpy and
// mpmath.
TEST(FourCoefficientOutside, PublishedSet) {
  const FourCoefficientCurve curve = published_four_coefficient();
  EXPECT_NEAR(curve.resistance(celsius(-18)).value(), 85900.1795, relative(85900.1795, 1e-6));
  const std::pair<double, double> rows[] = {{-40, 332100.1}, {-30, 175203.1}, {-20, 96360.0}, {0, 32554.8},
                                            {25, 10000.2},   {40, 5330.0},    {50, 3605.3}};
  for (const auto& [t, r] : rows) EXPECT_NEAR(curve.resistance(celsius(t)).value(), r, 0.05) << t;
}

// The maker's own inverse polynomial: A1 3.354016e-3, B1 2.569850e-4, C1 2.620131e-6, D1 6.383091e-8. The two printed
// polynomials invert each other within 0.012 K (mpmath), worst at -18 °C; our inverse is of the first one.
TEST(FourCoefficientOutside, AgreesWithThePublishedInverse) {
  const FourCoefficientCurve curve = published_four_coefficient();
  for (double t = -40; t <= 85; t += 1) {
    const double l = curve.log_resistance(celsius(t)) - std::log(10000.0);
    const double inverse = 3.354016e-3 + l * (2.569850e-4 + l * (2.620131e-6 + l * 6.383091e-8));
    EXPECT_NEAR(1.0 / inverse - 273.15, t, 0.0125) << t;
  }
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
