#include "part/control.hpp"

#include <array>
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

BetaCurve beta_curve(double ohms, double beta) {
  BetaCurve::Figures figures = beta_3977();
  figures.reference_resistance = ohm(ohms);
  figures.beta_kelvin = beta;
  return BetaCurve(figures);
}

/// What a control of the curve `expected` believes with `fitted` on it at `t` [°C].
double believed(const BetaCurve& expected, const BetaCurve& fitted, double t) {
  return expected.temperature(fitted.resistance(celsius(t)))->celsius();
}

TEST(ControlOutside, AnotherCurveFitted) {
  struct Row {
    double t;
    double low_error;    // 10 kohm, 3435 K where 10 kohm, 3977 K belongs [K]
    double five_kilohm;  // 5 kohm, 3950 K there [°C]
    double the_reverse;  // 10 kohm, 3977 K where 5 kohm, 3950 K belongs [°C]
  };
  constexpr std::array<Row, 13> rows{{
      {-30, 6.270523, -18.907199, -40.231855},
      {-25, 5.804089, -13.473388, -35.615817},
      {-20, 5.316498, -8.030956, -31.006515},
      {-18, 5.115570, -5.851564, -29.164677},
      {-10, 4.278431, 2.879859, -21.808059},
      {-5, 3.728246, 8.348283, -17.218876},
      {0, 3.157487, 13.825411, -12.636370},
      {5, 2.566295, 19.311266, -8.060526},
      {10, 1.954811, 24.805867, -3.491330},
      {15, 1.323175, 30.309236, 1.071231},
      {20, 0.671525, 35.821393, 5.627174},
      {25, 0, 41.342360, 10.176512},
      {30, -0.691266, 46.872158, 14.719260},
  }};
  const BetaCurve usual = beta_curve(10000, 3977);
  const BetaCurve low = beta_curve(10000, 3435);
  const BetaCurve five = beta_curve(5000, 3950);
  for (const Row& row : rows) {
    EXPECT_NEAR(believed(usual, low, row.t) - row.t, row.low_error, 1e-6) << row.t;
    EXPECT_NEAR(believed(usual, five, row.t), row.five_kilohm, 1e-6) << row.t;
    EXPECT_NEAR(believed(five, usual, row.t), row.the_reverse, 1e-6) << row.t;
  }
  EXPECT_NEAR(believed(low, usual, 10), 7.769965, 1e-6);  // where it ends when 10 °C are set
  EXPECT_NEAR(believed(five, usual, 10), -3.491330, 1e-6);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
