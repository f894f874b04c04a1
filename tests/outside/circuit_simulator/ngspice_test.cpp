#include <cmath>
#include <numbers>
#include <optional>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/report/run_program.hpp>

#include "curves/beta_curve.hpp"
#include "part/control.hpp"
#include "sensor_fixture.hpp"

// Three circuits that the formulas of the kinds stand for, solved by ngspice.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

/// What ngspice prints as "name = number" for a netlist; nothing where it is not installed.
std::optional<double> simulated(const std::string& netlist, const std::string& name) {
  const auto output = run_program({"ngspice", "-b"}, netlist);
  if (!output) return std::nullopt;
  const std::size_t at = output->find(name);
  if (at == std::string::npos) throw std::runtime_error("no " + name + " in: " + *output);
  return std::stod(output->substr(output->find('=', at) + 1));
}

TEST(Ngspice, TheDividerAtAControlsInput) {
  const BetaCurve curve(beta_3977());
  Control control;
  control.pull_up = ohm(10000);
  for (const double t : {-20.0, 0.0, 10.0, 25.0}) {
    const Resistance r = curve.resistance(celsius(t));
    const auto volts = simulated("divider\nV1 ref 0 DC 1\nR1 ref sense 10k\nR2 sense 0 " + std::to_string(r.value()) +
                                     "\n.control\nset numdgt=12\nop\nprint v(sense)\nquit 0\n.endc\n.end\n",
                                 "v(sense)");
    if (!volts) GTEST_SKIP() << "ngspice is not installed";
    EXPECT_NEAR(control.share_of_reference(r), *volts, 1e-9) << t;
  }
}

TEST(Ngspice, TheCurrentThroughACapacitor) {
  // C = I/(2πfV) of 1.40 A, 60 Hz, 372 V.
  const double farads = 1.40 / (2.0 * std::numbers::pi * 60.0 * 372.0);
  const auto amperes =
      simulated("capacitor\nV1 a 0 AC 372\nC1 a 0 " + std::to_string(farads * 1e6) +
                    "u\n.control\nset numdgt=12\nac lin 1 60 60\nlet i = mag(i(v1))\nprint i\nquit 0\n.endc\n.end\n",
                "i =");
  if (!amperes) GTEST_SKIP() << "ngspice is not installed";
  EXPECT_NEAR(*amperes, 1.40, 1e-6);
}

TEST(Ngspice, TheDischargeOfACapacitor) {
  // t = RC·ln(V0/V): 45 µF at 523.26 V through 15 kΩ is below 34 V after 1.845 s.
  const double seconds = 15e3 * 45e-6 * std::log(523.26 / 34.0);
  const auto volts = simulated("discharge\nC1 a 0 45u IC=523.26\nR1 a 0 15k\n.control\nset numdgt=12\ntran 1m " +
                                   std::to_string(seconds) +
                                   " 0 1m uic\nlet last = v(a)[length(v(a))-1]\nprint last\nquit 0\n.endc\n.end\n",
                               "last =");
  if (!volts) GTEST_SKIP() << "ngspice is not installed";
  EXPECT_NEAR(*volts, 34.0, 0.01);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
