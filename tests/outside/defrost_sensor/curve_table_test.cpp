#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "curves/beta_curve.hpp"
#include "curves/four_coefficient_curve.hpp"
#include "sensor_fixture.hpp"

// Four materials from -40 to 50 °C: the published four-coefficient set of a 10 kohm, B25/85 = 3977 K material (nine
// public programs) with its local slope -T²·d(ln R)/dT, and beta equations. Figures with numpy and mpmath; half of the
// last digit.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

struct Row {
  double t;
  double four_coefficient;
  double slope;
  double beta_3977;
  double beta_3435;
  double five_kilohm_3950;
};

constexpr std::array<Row, 17> table{{
    {-40, 332100.1, 3596.6, 412134.57, 248276.52, 200929.86},
    {-30, 175203.1, 3653.9, 204347.19, 135452.45, 100101.95},
    {-25, 129289.5, 3680.5, 146974.42, 101898.03, 72158.47},
    {-20, 96360.0, 3706.0, 107094.87, 77522.55, 52692.35},
    {-18, 85900.2, 3715.9, 94686.50, 69700.51, 46626.20},
    {-15, 72501.8, 3730.4, 78998.87, 59605.98, 38949.05},
    {-10, 55047.0, 3753.7, 58951.50, 46290.20, 29122.86},
    {-5, 42157.8, 3776.0, 44474.36, 36289.67, 22013.02},
    {0, 32554.8, 3797.4, 33900.42, 28704.29, 16810.30},
    {5, 25339.0, 3817.9, 26093.92, 22896.64, 12962.28},
    {10, 19872.6, 3837.6, 20271.59, 18410.44, 10087.29},
    {15, 15698.8, 3856.5, 15887.00, 14915.68, 7918.57},
    {20, 12488.0, 3874.8, 12554.70, 12171.41, 6267.66},
    {25, 10000.2, 3892.3, 10000.00, 10000.00, 5000.00},
    {30, 8059.2, 3909.2, 8025.15, 8269.41, 4018.57},
    {40, 5330.0, 3941.1, 5278.52, 5758.76, 2650.73},
    {50, 3605.3, 3970.9, 3563.13, 4101.19, 1794.09},
}};

BetaCurve beta_curve(double ohms, double beta) {
  BetaCurve::Figures figures = beta_3977();
  figures.reference_resistance = ohm(ohms);
  figures.beta_kelvin = beta;
  return BetaCurve(figures);
}

TEST(CurveTableOutside, FourCoefficients) {
  const FourCoefficientCurve curve = published_four_coefficient();
  for (const Row& row : table) {
    EXPECT_NEAR(curve.resistance(celsius(row.t)).value(), row.four_coefficient, 0.05) << row.t;
    EXPECT_NEAR(-curve.log_slope(celsius(row.t)) * std::pow(celsius(row.t).kelvin(), 2), row.slope, 0.05) << row.t;
  }
}

TEST(CurveTableOutside, BetaEquations) {
  const BetaCurve usual = beta_curve(10000, 3977);
  const BetaCurve low = beta_curve(10000, 3435);
  const BetaCurve five = beta_curve(5000, 3950);
  for (const Row& row : table) {
    EXPECT_NEAR(usual.resistance(celsius(row.t)).value(), row.beta_3977, 0.005) << row.t;
    EXPECT_NEAR(low.resistance(celsius(row.t)).value(), row.beta_3435, 0.005) << row.t;
    EXPECT_NEAR(five.resistance(celsius(row.t)).value(), row.five_kilohm_3950, 0.005) << row.t;
  }
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
