#include "part/tolerance.hpp"

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
