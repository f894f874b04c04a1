#include <numbers>

#include <gtest/gtest.h>

#include "motor_readings.hpp"
#include "part/capacitor_discharge.hpp"

// What the capacitor rule makes of a clamp and a voltmeter: C = I/(2π·f·V), the reactance of a capacitor at a sine; its
// doubt by GUM 5.1. Figures with mpmath, 30 digits; ngspice draws 1.40000 A through the first.

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;

double microfarads(const CapacitorRun& run) {
  return 1e6 * capacitor_finding(run, clamp(0.01)).measured->value_in_si();
}

double relative_doubt(const CapacitorRun& run, double resolution) {
  const Finding finding = capacitor_finding(run, clamp(resolution));
  return *finding.measured_uncertainty / finding.measured->value_in_si();
}

TEST(CapacitorOutside, CurrentByVoltsAndFrequency) {
  EXPECT_NEAR(microfarads({10e-6, 60, "1.40 A", "372 V"}), 9.982837, 9.982837e-6);
  EXPECT_NEAR(microfarads({45e-6, 60, "4.05 A", "240 V"}), 44.762328, 44.762328e-6);
  EXPECT_NEAR(microfarads({5.8e-6, 50, "0.72 A", "400 V"}), 5.729578, 5.729578e-6);
}

// The reactance of 10 µF, 1/(2π·f·C), is 265.258238 Ω at 60 Hz and 318.309886 Ω at 50 Hz: so many volts drive 1 A.
TEST(CapacitorOutside, ReactanceOfTenMicrofarads) {
  EXPECT_NEAR(microfarads({10e-6, 60, "1.000 A", "265.258238 V"}), 10.0, 1e-6);
  EXPECT_NEAR(microfarads({10e-6, 50, "1.000 A", "318.309886 V"}), 10.0, 1e-6);
}

// 1.40 A by 1.5 % and 3 counts, 372 V by 1 % and 3 counts of 0.1 V (±4.02 V), rectangular.
TEST(CapacitorOutside, TheCountOfTheClampDecidesItsDoubt) {
  const CapacitorRun run{10e-6, 60, "1.40 A", "372 V +- 4.02 V", 0.03};
  EXPECT_NEAR(relative_doubt(run, 0.01), 0.021938, 5e-7);
  EXPECT_NEAR(relative_doubt(run, 0.001), 0.011700, 5e-7);
}

TEST(CapacitorOutside, AClampCannotDecideThreePercent) {
  const CapacitorRun run{10e-6, 60, "1.40 A", "372 V +- 4.02 V", 0.03};
  EXPECT_EQ(capacitor_finding(run, clamp(0.01)).outcome, Outcome::undecided);
}

// Discharge of a capacitor through a resistor, V = V0·exp(−t/RC): 45 µF charged to the peak of 370 V, 523.26 V, through
// 15 kΩ to 34 V; and 10 µF from 340 V through 20 kΩ to 50 V. Figures in numpy; tests/outside/circuit_simulator
// discharges the first in ngspice.
TEST(CapacitorOutside, DischargeFromThePeak) {
  const auto seconds = [](double ohms, double farads, double root_mean_square, double to) {
    return discharge_time(Resistance::from_value(ohms), Capacitance::from_value(farads),
                          Voltage::from_value(root_mean_square), Voltage::from_value(to))
        .value();
  };
  EXPECT_NEAR(seconds(15e3, 45e-6, 370.0, 34.0), 1.845258, 1.845258e-5);
  EXPECT_NEAR(seconds(20e3, 10e-6, 340.0 / std::numbers::sqrt2, 50.0), 0.383385, 5e-7);
  EXPECT_EQ(seconds(20e3, 10e-6, 24.0, 34.0), 0.0);  // its peak of 33.9 V may be touched
}

}  // namespace
}  // namespace ohmwright::fan_motor
