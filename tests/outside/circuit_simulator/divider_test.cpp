#include <string>

#include <gtest/gtest.h>

#include "curves/beta_curve.hpp"
#include "part/control.hpp"
#include "sensor_fixture.hpp"
#include "simulated.hpp"

// The circuit that the formula of a control's input stands for, solved by ngspice.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

TEST(Ngspice, TheDividerAtAControlsInput) {
  const BetaCurve curve(beta_3977());
  Control control;
  control.pull_up = ohm(10000);
  for (const double t : {-20.0, 0.0, 10.0, 25.0}) {
    const Resistance r = curve.resistance(celsius(t));
    const auto volts = ohmwright::testing_support::simulated(
        "divider\nV1 ref 0 DC 1\nR1 ref sense 10k\nR2 sense 0 " + std::to_string(r.value()) +
            "\n.control\nset numdgt=12\nop\nprint v(sense)\nquit 0\n.endc\n.end\n",
        "v(sense)");
    if (!volts) GTEST_SKIP() << "ngspice is not installed";
    EXPECT_NEAR(control.share_of_reference(r), *volts, 1e-9) << t;
  }
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
