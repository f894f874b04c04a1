#include <array>
#include <string>

#include <gtest/gtest.h>

#include "motor_readings.hpp"
#include "part/capacitor_discharge.hpp"
#include "simulated.hpp"

// The capacitor that the fan motor's rule finds behind a clamp and a voltmeter draws, in ngspice, what the clamp
// showed.

namespace ohmwright::fan_motor {
namespace {

struct Shown {
  testing_support::CapacitorRun run;
  std::string volts;
  double amperes;
};

TEST(NgspiceCapacitor, DrawsWhatTheClampShowed) {
  const std::array<Shown, 3> all{{{{10e-6, 60, "1.40 A", "372 V"}, "372", 1.40},
                                  {{45e-6, 60, "4.05 A", "240 V"}, "240", 4.05},
                                  {{5.8e-6, 50, "0.72 A", "400 V"}, "400", 0.72}}};
  for (const Shown& shown : all) {
    const Finding finding = capacitor_finding(shown.run, testing_support::clamp(0.01));
    const std::string hertz = std::to_string(shown.run.hertz);
    const auto amperes = ohmwright::testing_support::simulated(
        "capacitor\nV1 a 0 AC " + shown.volts + "\nC1 a 0 " + std::to_string(finding.measured->value_in_si() * 1e6) +
            "u\n.control\nset numdgt=12\nac lin 1 " + hertz + " " + hertz +
            "\nlet i = mag(i(v1))\nprint i\nquit 0\n.endc\n.end\n",
        "i =");
    if (!amperes) GTEST_SKIP() << "ngspice is not installed";
    EXPECT_NEAR(*amperes, shown.amperes, 1e-6 * shown.amperes) << shown.run.current;
  }
}

// 45 µF charged to the peak of 370 V, 523.26 V, through 15 kΩ down to 34 V: how long to wait before it is touched.
TEST(NgspiceCapacitor, DischargesInTheTimeThatIsTold) {
  const double told = discharge_time(Resistance::from_value(15e3), Capacitance::from_value(45e-6),
                                     Voltage::from_value(370.0), Voltage::from_value(34.0))
                          .value();
  const auto simulated = ohmwright::testing_support::simulated(
      "discharge\nC1 n 0 45u IC=523.25902\nR1 n 0 15k\n.control\nset numdgt=12\ntran 0.5m 3 uic\n"
      "meas tran t34 WHEN v(n)=34 FALL=1\nquit 0\n.endc\n.end\n",
      "t34 ");
  if (!simulated) GTEST_SKIP() << "ngspice is not installed";
  EXPECT_NEAR(told, *simulated, 1e-4 * *simulated);
}

}  // namespace
}  // namespace ohmwright::fan_motor
