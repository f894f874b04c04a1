#include "part/tolerance.hpp"

#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "curves/beta_curve.hpp"
#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

// 10 kohm ± 1 %, B = 3977 K ± 1 %, worst case: upper limit by the exact exponential (numpy).
TEST(ToleranceOutside, OnePercentOfValueAndSlope) {
  const BetaCurve curve(beta_3977());
  const Tolerance tolerance(ReferenceAndSlope{0.01, 0.01, celsius(25)});
  const std::pair<double, double> rows[] = {{-30, 4.093847}, {-18, 3.296178}, {0, 2.240608}, {25, 1.0}, {50, 2.047661}};
  for (const auto& [t, upper] : rows)
    EXPECT_NEAR(100.0 * std::expm1(tolerance.at(curve, celsius(t)).upper), upper, 1e-5 * upper) << t;
}

// The same to first order, as data sheets print it: ΔR/R = ΔR0/R0 + |1/T - 1/T0|·ΔB, or the root of the sum of their
// squares, and ΔT = (ΔR/R)/|α| in kelvin (numpy).
TEST(ToleranceOutside, OnePercentOfValueAndSlopeToFirstOrder) {
  struct Row {
    double t;
    double sum_percent;
    double root_percent;
    double kelvin;
  };
  constexpr std::array<Row, 5> rows{{{-30, 4.017235, 3.178633, 0.597201},
                                     {-18, 3.247986, 2.460374, 0.531679},
                                     {0, 2.220842, 1.578118, 0.416643},
                                     {25, 1.0, 1.0, 0.223519},
                                     {50, 2.031945, 1.436980, 0.533537}}};
  const BetaCurve curve(beta_3977());
  const Tolerance tolerance(ReferenceAndSlope{0.01, 0.01, celsius(25)});
  for (const Row& row : rows) {
    const double reference = std::expm1(tolerance.at(curve, celsius(25)).upper);
    const double slope = tolerance.of_difference(curve, celsius(row.t), celsius(25)).upper;
    EXPECT_NEAR(100.0 * (reference + slope), row.sum_percent, 1e-6) << row.t;
    EXPECT_NEAR(100.0 * std::hypot(reference, slope), row.root_percent, 1e-6) << row.t;
    EXPECT_NEAR((reference + slope) / std::abs(curve.log_slope(celsius(row.t))), row.kelvin, 1e-6) << row.t;
  }
}

// 10 % in kelvin to first order, 0.1/|α| (numpy; half of the last digit).
TEST(ToleranceOutside, TenPercentInKelvinToFirstOrder) {
  const BetaCurve curve(beta_3977());
  EXPECT_NEAR(0.1 / std::abs(curve.log_slope(celsius(-18))), 1.637, 5e-4);
  EXPECT_NEAR(0.1 / std::abs(curve.log_slope(celsius(0))), 1.876, 5e-4);
  EXPECT_NEAR(0.1 / std::abs(curve.log_slope(celsius(25))), 2.235, 5e-4);
}

// 10 % of resistance in kelvin, exact at 0 °C (numpy): +10 % is -1.776448 K, -10 % is +1.991035 K.
TEST(ToleranceOutside, TenPercentInKelvin) {
  const BetaCurve curve(beta_3977());
  const LogLimits limits = Tolerance(OfResistance{0.1}).at(curve, celsius(0));
  const double nominal = curve.log_resistance(celsius(0));
  EXPECT_NEAR(curve.temperature_at(nominal + limits.upper)->celsius(), -1.776448, 1e-6);
  EXPECT_NEAR(curve.temperature_at(nominal + limits.lower)->celsius(), 1.991035, 1e-6);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
