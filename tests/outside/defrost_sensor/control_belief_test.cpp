#include <memory>
#include <string_view>

#include <gtest/gtest.h>

#include "sensor_fixture.hpp"

// What the rules say that a control believes of a 10 kohm, 3977 K sensor that is off, leaks or hangs on a bad joint:
// 10 kohm pull-up, 5 V, the end set for 10 °C. Readings and figures with mpmath (30 digits), those at 10 °C also with
// numpy and GSL.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

SensorRatings on_its_control(double reference_ohms = 10000, double pull_up = 10000) {
  BetaCurve::Figures figures = beta_3977();
  figures.reference_resistance = ohm(reference_ohms);
  figures.stated_span = TemperatureSpan{celsius(-40), celsius(85)};
  SensorRatings ratings = ratings_with(std::make_shared<BetaCurve>(figures));
  Control control;
  control.pull_up = ohm(pull_up);
  control.reference_voltage = Voltage::from_value(5.0);
  control.termination_temperature = celsius(10);
  ratings.control = control;
  ratings.watts_per_kelvin = 2e-3;
  return ratings;
}

/// A figure in °C that the rule on the end of the defrost tells of one dry reading without any doubt.
double told_celsius(std::string_view name, std::string_view ohms, std::string_view at) {
  const Findings findings = judge(on_its_control(), {{.value = ohms, .at = at}}, no_leads_meter());
  return argument(finding_of(findings, end_of_defrost), name) - 273.15;
}

double believed(std::string_view ohms, std::string_view at) { return told_celsius("believed", ohms, at); }

// 1.1, 0.9 and 1.2 times 20 271.59 ohm, at 10 °C.
TEST(BeliefOutside, DriftAtTheEndOfADefrost) {
  constexpr std::string_view high = "22298.754014616 ohm +- 0 ohm";
  constexpr std::string_view low = "18244.435102868 ohm +- 0 ohm";
  constexpr std::string_view higher = "24325.91347049 ohm +- 0 ohm";
  constexpr std::string_view at = "10 degC +- 0 K";
  EXPECT_NEAR(believed(high, at), 8.091555, 1e-6);
  EXPECT_NEAR(believed(low, at), 12.140058, 1e-6);
  EXPECT_NEAR(told_celsius("ends_at", high, at), 11.934523, 1e-6);
  EXPECT_NEAR(told_celsius("ends_at", low, at), 7.891810, 1e-6);
  EXPECT_NEAR(told_celsius("ends_at", higher, at), 13.723831, 1e-6);
}

// 1.1 and 0.9 times 94 686.50 ohm.
TEST(BeliefOutside, DriftInTheFreezer) {
  EXPECT_NEAR(believed("104155.14569438 ohm +- 0 ohm", "-18 degC +- 0 K"), -19.550698, 1e-6);
  EXPECT_NEAR(believed("85217.846477222 ohm +- 0 ohm", "-18 degC +- 0 K"), -16.263563, 1e-6);
}

// 200 kohm beside the sensor, to a hundredth of a kelvin: an error that shrinks when warm.
TEST(BeliefOutside, LeakageBesideIt) {
  EXPECT_NEAR(believed("64262.52803809 ohm +- 0 ohm", "-18 degC +- 0 K"), -11.49, 0.005);
  EXPECT_NEAR(believed("28987.054172101 ohm +- 0 ohm", "0 degC +- 0 K"), 2.97, 0.005);
  EXPECT_NEAR(believed("18405.999738052 ohm +- 0 ohm", "10 degC +- 0 K"), 11.96, 0.005);
}

// The same at 0 °C, wet against dry: the rule finds the 200 kohm.
TEST(BeliefOutside, LeakageIsFoundWetAgainstDry) {
  const Findings findings =
      judge(on_its_control(),
            {{.value = "28987.054172101 ohm +- 0 ohm", .at = "0 degC +- 0 K", .moisture = Moisture::wet},
             {.value = "33900.420850329 ohm +- 0 ohm", .at = "0 degC +- 0 K"}},
            no_leads_meter());
  EXPECT_NEAR(argument(finding_of(findings, moisture_leakage), "path"), 200e3, 0.2);
}

// 500 ohm in series, to a hundredth of a kelvin: an error that grows when warm.
TEST(BeliefOutside, BadJointInSeries) {
  EXPECT_NEAR(believed("34400.420850329 ohm +- 0 ohm", "0 degC +- 0 K"), -0.27, 0.005);
  EXPECT_NEAR(believed("10500 ohm +- 0 ohm", "25 degC +- 0 K") - 25.0, -1.09, 0.005);
}

/// What the rule on live volts tells of `volts`, read with 10 Mohm.
double told_of_volts(std::string_view name, std::string_view volts, const SensorRatings& ratings) {
  const Findings findings =
      judge(ratings,
            {{.value = volts, .connection = Connection::in_circuit, .supply = Supply::live, .measurand = "voltage"}});
  return argument(finding_of(findings, volts_at_board), name);
}

// 10 kohm class at 0 and -20 °C, 100 kohm class on 100 kohm at -20 °C: what a 10 Mohm voltmeter adds.
TEST(BeliefOutside, TheVoltmeterWarmsTheBelief) {
  EXPECT_NEAR(told_of_volts("meter_load", "3.85807950020244 V +- 0 V", on_its_control()), 0.063506, 1e-6);
  EXPECT_NEAR(told_of_volts("meter_load", "4.56881716809003 V +- 0 V", on_its_control()), 0.171770, 1e-6);
  EXPECT_NEAR(told_of_volts("meter_load", "4.53155028356949 V +- 0 V", on_its_control(100e3, 100e3)), 1.650102, 1e-6);
}

// 2.5 V across 10 kohm at 2 mW/K, by hand: 0.3125 K. A voltmeter of 10 Mohm carries a thousandth of that current, which
// the rule takes off.
TEST(BeliefOutside, SelfHeating) {
  EXPECT_NEAR(told_of_volts("self_heating", "2.5 V +- 0 V", on_its_control()), 0.3125 * 0.999, 1e-9);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
