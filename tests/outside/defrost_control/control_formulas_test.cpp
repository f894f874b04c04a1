#include <gtest/gtest.h>

#include "control_fixture.hpp"
#include "part/cam_time.hpp"
#include "part/motor.hpp"
#include "part/sensor_divider.hpp"

// Winding law, divider, synchronous speed, the interval of variable defrosts and volts across a contact, each against
// numbers that were computed elsewhere.

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

Temperature celsius(double t) { return Temperature::from_celsius(t); }

// R2 = R1 (k + t2)/(k + t1), copper k = 234.5 (product standards; IEC 60034-1 has 235); two programs.
TEST(WindingLawOutside, Copper) {
  EXPECT_NEAR(25.0 * copper_factor(celsius(20), celsius(75)), 30.402750, 5e-7);
  EXPECT_NEAR(100.0 * copper_factor(celsius(25), celsius(-20)), 82.658960, 5e-7);
  EXPECT_NEAR(27.9 * copper_factor(celsius(40), celsius(20)), 25.867213, 5e-7);
}

// 82 ohm ± 7 % at 25 °C; 77.8 ohm with leads of 0.3 ± 0.05, 0.9 % + 2 × 0.1, at 31 ± 3 °C: 75.748588, u 0.709255,
// P(within) 0.235438 by normal theory (JCGM 106, two programs). Ours takes the rectangles as they are.
TEST(WindingLawOutside, TheTemperatureCarriesTheDoubt) {
  const ControlRatings rated =
      ratings(R"({"type": "cam-timer", "motor_least": "76.26 ohm", "motor_most": "87.74 ohm"})");
  const Findings findings = judge(
      rated, {{.measurand = "motor", .value = "77.7 ohm +- 0.9002 ohm", .at = "31 degC +- 3 K"}});  // leads 0.2 here
  const Finding& finding = finding_of(findings, motor_winding);
  EXPECT_NEAR(finding.measured->value_in_si(), 75.748588, 5e-7);
  EXPECT_NEAR(*finding.measured_uncertainty, 0.709255, 5e-7);
  EXPECT_NEAR(finding.probability, 0.235438, 0.02);  // rectangles against normal theory
}

// 5 V, 10 kohm; sensor 10 kohm, B 3977 K (beta equation, IEC 60539-1): at 0 °C 0.772211751 of the supply (nodal
// analysis with ngspice), 3.861059 V, with a 10 Mohm voltmeter 3.858080 V.
TEST(DividerOutside, SensorAtZeroDegrees) {
  SensorInput input;
  input.supply = Voltage::from_value(5.0);
  input.pull_up = Resistance::from_value(10e3);
  constexpr double at_zero = 33900.420850;
  EXPECT_NEAR(volts_at_connector(input, at_zero), 3.858080, 5e-7);
  EXPECT_NEAR(volts_at_connector(input, std::nullopt), 5.0 / (1.0 + 1e-3), 1e-12);  // 10 kohm before 10 Mohm
}

// n = 120 f/p: 60 Hz 1800, 50 Hz 1500 revolutions a minute with four poles.
TEST(SynchronousOutside, ASixtyHertzTimerTakesAFifthLongerOnFiftyHertz) {
  EXPECT_NEAR(time_factor(timer(), 50.0), 1800.0 / 1500.0, 1e-12);
  EXPECT_EQ(time_factor(timer(), 60.0), 1.0);
  EXPECT_EQ(time_factor(board(), 50.0), 1.0);
}

// US 10 CFR 430 subpart B appendix A: CT = CTL·CTM/(F(CTM − CTL) + CTL), F = 0.20, hours of compressor run time.
TEST(VariableIntervalOutside, LiesWithinItsOwnLimits) {
  const auto says = [](const std::string& least, const std::string& most, std::string_view hours) {
    const ControlRatings rated =
        ratings(R"({"type": "relay-board", "interval_least": ")" + least + R"(", "interval_most": ")" + most + R"("})");
    return outcome_of(judge(rated, {{.measurand = "interval", .value = hours}}), interval);
  };
  EXPECT_EQ(says("6 h", "96 h", "24.000000 h"), Outcome::within_limits);
  EXPECT_EQ(says("8 h", "60 h", "26.086957 h"), Outcome::within_limits);
  EXPECT_EQ(says("12 h", "84 h", "38.181818 h"), Outcome::within_limits);
}

// I·r and I²·r (Ohm, Joule): 3.75 A through 0.05, 0.5 and 2 ohm.
TEST(ContactDropOutside, VoltsAndWatts) {
  const auto heat_of = [](std::string_view volts) {
    const Findings findings = judge(timer(), {across(volts, "3.75 A +- 0.01 A")});
    const Finding& finding = finding_of(findings, contact_drop);
    for (const FindingArgument& argument : finding.arguments)
      if (argument.name == "heat") return std::get<AnyQuantity>(argument.value).value_in_si();
    return 0.0;
  };
  EXPECT_NEAR(heat_of("0.1875 V"), 0.703125, 1e-9);
  EXPECT_NEAR(heat_of("1.875 V"), 7.03125, 1e-9);
  EXPECT_NEAR(heat_of("7.5 V"), 28.125, 1e-9);
}

// |V| = V·R/√(R² + (1/2πfC)²): 120 V, 60 Hz into 10 Mohm through 50 pF, 200 pF and 1 nF; into 3 kohm through 200 pF.
TEST(GhostVoltsOutside, AreNeverTakenForAnOutput) {
  for (const std::string_view ghost : {"22.228 V", "72.243968 V", "115.989 V"}) {
    const Outcome outcome = outcome_of(judge(timer(), {output_at("defrost", ghost)}), output);
    EXPECT_NE(outcome, Outcome::within_limits) << ghost;
  }
  EXPECT_EQ(outcome_of(judge(timer(), {output_at("defrost", "0.027143 V")}), output), Outcome::out_of_limits);
}

}  // namespace
}  // namespace ohmwright::defrost_control
