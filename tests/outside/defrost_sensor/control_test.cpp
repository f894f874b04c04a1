#include "part/control.hpp"

#include <cmath>

#include <gtest/gtest.h>

#include "curves/beta_curve.hpp"
#include "sensor_fixture.hpp"

// What a control believes: 10 kohm pull-up, NTC to ground. numpy, GSL and ngspice.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

Control ten_kilohm_pull_up() {
  Control control;
  control.pull_up = ohm(10000);
  control.bits = 10;
  return control;
}

TEST(ControlOutside, DividerAndCode) {
  const BetaCurve curve(beta_3977());
  const Control control = ten_kilohm_pull_up();
  EXPECT_NEAR(control.share_of_reference(curve.resistance(celsius(0))), 0.772211751, 1e-8);
  EXPECT_NEAR(control.share_of_reference(curve.resistance(celsius(-20))), 0.914599161, 1e-8);
  EXPECT_NEAR(control.share_of_reference(curve.resistance(celsius(10))), 0.669657309, 1e-8);
  EXPECT_EQ(control.code(curve.resistance(celsius(0))), 790);
  EXPECT_EQ(control.code(curve.resistance(celsius(-20))), 936);
  EXPECT_EQ(control.code(curve.resistance(celsius(10))), 685);
  EXPECT_EQ(control.code(ohm(10000)), 512);  // 511.5, a tie: half up
  EXPECT_NEAR(*control.kelvin_per_code(curve.resistance(celsius(0)), curve), 0.104257, 2e-6);
  EXPECT_NEAR(*control.kelvin_per_code(curve.resistance(celsius(-20)), curve), 0.201666, 2e-6);
}

TEST(ControlOutside, CodeBackToResistance) {
  const BetaCurve curve(beta_3977());
  const Resistance r = *ten_kilohm_pull_up().resistance_at(790.0 / 1023.0);
  EXPECT_NEAR(r.value(), 33905.579, 5e-4);
  EXPECT_NEAR(curve.temperature(r)->celsius(), -0.002855, 1e-6);
}

TEST(ControlOutside, DriftedSensor) {
  const BetaCurve curve(beta_3977());
  const double at_ten = curve.log_resistance(celsius(10));
  EXPECT_NEAR(curve.temperature_at(at_ten + std::log(1.1))->celsius(), 8.091555, 1e-6);
  EXPECT_NEAR(curve.temperature_at(at_ten - std::log(1.1))->celsius(), 11.934523, 1e-6);
}

TEST(ControlOutside, AnotherCurveFitted) {
  const BetaCurve expected(beta_3977());
  BetaCurve::Figures low = beta_3977();
  low.beta_kelvin = 3435;
  const BetaCurve fitted(low);
  EXPECT_NEAR(expected.temperature(fitted.resistance(celsius(-18)))->celsius() + 18, 5.115570, 1e-6);
  EXPECT_NEAR(fitted.temperature(expected.resistance(celsius(10)))->celsius(), 7.769965, 1e-6);
  BetaCurve::Figures half = beta_3977();
  half.reference_resistance = ohm(5000);
  half.beta_kelvin = 3950;
  const BetaCurve five(half);
  EXPECT_NEAR(expected.temperature(five.resistance(celsius(-18)))->celsius(), -5.851564, 1e-6);
  EXPECT_NEAR(five.temperature(expected.resistance(celsius(10)))->celsius(), -3.491330, 1e-6);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
