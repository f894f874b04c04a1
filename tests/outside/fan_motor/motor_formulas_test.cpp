#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string_view>
#include <variant>

#include <gtest/gtest.h>

#include <ohmwright/quantity/observed.hpp>

#include "fan_motor_part.hpp"
#include "motor_readings.hpp"
#include "part/fan_motor_ratings.hpp"
#include "rules/names.hpp"

// Winding resistance against temperature (IEC 60034-1 form; 234.5 and 225 as product standards have them), synchronous
// speed 120 f/p, and a whole verdict against numbers worked with Monte Carlo and the closed form outside of this
// project.

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;

double moved(double k, double ohms, double from, double to) {
  return ohms * winding_factor(k, Temperature::from_celsius(from), Temperature::from_celsius(to));
}

TEST(MotorOutside, WindingAgainstTemperature) {
  EXPECT_NEAR(moved(234.5, 25.0, 20, 75), 30.402750, 5e-7);
  EXPECT_NEAR(moved(225.0, 25.0, 20, 75), 30.612245, 5e-7);
  EXPECT_NEAR(moved(234.5, 100.0, 25, -20), 82.658960, 5e-7);
  EXPECT_NEAR(moved(234.5, 27.9, 40, 20), 25.867213, 5e-7);
}

TEST(MotorOutside, SynchronousSpeed) {
  const auto rpm = [](double hertz, int poles) {
    return synchronous_speed(Frequency::from_value(hertz), poles).value() * 60.0 / (2.0 * std::numbers::pi);
  };
  EXPECT_NEAR(rpm(60, 2), 3600, 1e-9);
  EXPECT_NEAR(rpm(60, 4), 1800, 1e-9);
  EXPECT_NEAR(rpm(60, 6), 1200, 1e-9);
  EXPECT_NEAR(rpm(60, 8), 900, 1e-9);
  EXPECT_NEAR(rpm(50, 2), 3000, 1e-9);
  EXPECT_NEAR(rpm(50, 4), 1500, 1e-9);
  EXPECT_NEAR(rpm(50, 6), 1000, 1e-9);
  EXPECT_NEAR(rpm(50, 8), 750, 1e-9);
}

/// Share of the three rectangles' sum above a limit, on a grid of two and exact in the third.
double share_above(double limit) {
  constexpr int cells = 400;
  const double factor = 259.5 / 265.5;
  const double meter = factor * (0.009 * 77.8 + 0.2);
  double share = 0.0;
  for (int i = 0; i < cells; ++i) {
    const double leads = factor * 0.05 * ((2.0 * i + 1.0) / cells - 1.0);
    for (int j = 0; j < cells; ++j) {
      const double kelvin = 3.0 * ((2.0 * j + 1.0) / cells - 1.0);
      const double middle = 77.5 * factor * (1.0 - kelvin / 265.5) + leads;
      share += std::clamp(0.5 + 0.5 * (middle - limit) / meter, 0.0, 1.0);
    }
  }
  return share / (cells * cells);
}

FanMotorRatings eighty_two_ohm() {
  FanMotorRatings ratings;
  ratings.winding = Resistance::from_value(82.0);
  ratings.winding_tolerance = 0.07;
  return ratings;
}

/// The meter shows 77.8 ohm, 0.9 % + 2 × 0.1 ohm, leads 0.3 ± 0.05 ohm, of 82 ohm ± 7 % at 25 °C.
Finding winding_finding(std::string_view at) {
  Reading reading{.measurand = "winding", .observed = parse_observed("77.8 ohm", Dimension::resistance)};
  reading.conditions.push_back({"part_temperature", parse_stated_value(at, Dimension::temperature), "", false});
  reading.connection = Connection::lead_off;
  const MeterSet meter = meter_of({Dimension::resistance, 0.9, 2.0, 0.1, 600.0, "0.3 ohm +- 0.05 ohm"});
  return finding_of(eighty_two_ohm(), winding_resistance, {reading}, meter);
}

/// P(within ± 7 %) of a normal distribution, as the source takes it.
double normal_share(const Finding& finding) {
  const double y = finding.measured->value_in_si();
  const auto below = [&](double limit) {
    return 0.5 * std::erfc((y - limit) / *finding.measured_uncertainty / std::numbers::sqrt2);
  };
  return below(87.74) - below(76.26);
}

// JCGM 106 on the winding law; figures with numpy and mpmath. The source takes the sum of the rectangles as normal; the
// verdict takes them as they are.
TEST(MotorOutside, AWarmMotorIsNotJudgedByItsColdSheet) {
  const Finding warm = winding_finding("31 degC +- 3 K");
  EXPECT_NEAR(warm.measured->value_in_si(), 75.748588, 5e-7);
  EXPECT_NEAR(*warm.measured_uncertainty, 0.709255, 5e-7);
  EXPECT_NEAR(normal_share(warm), 0.235438, 1e-6);
  EXPECT_NEAR(warm.probability, share_above(76.26), 2e-5);
  EXPECT_EQ(warm.outcome, Outcome::undecided);
}

// The same reading of a winding that is said to be at 25 °C passes.
TEST(MotorOutside, TakenAsColdTheWarmMotorPasses) {
  const Finding uncorrected = winding_finding("25 degC +- 0 K");
  EXPECT_NEAR(uncorrected.measured->value_in_si(), 77.5, 1e-9);
  EXPECT_NEAR(*uncorrected.measured_uncertainty, 0.520532, 5e-7);
  EXPECT_NEAR(normal_share(uncorrected), 0.991395, 1e-6);
  EXPECT_NEAR(uncorrected.probability, 1.0, 1e-9);  // 0.9002 + 0.05 ohm do not reach from 77.5 to 76.26 ohm
  EXPECT_EQ(uncorrected.outcome, Outcome::within_limits);
}

/// Ohms that a good motor is expected to have at `celsius`.
double expected_ohms(double ohms, double reference, double k, double celsius) {
  FanMotorRatings ratings;
  ratings.winding = Resistance::from_value(ohms);
  ratings.reference_temperature = Temperature::from_celsius(reference);
  ratings.conductor_constant = k;
  const std::array<ConditionValue, 1> there{{{part_temperature, Temperature::from_celsius(celsius).kelvin()}}};
  return FanMotorPart(ratings).expect(winding, Situation(there)).value().nominal.value_in_si();
}

// A handbook's example of the rise of IEC 60034-1: 0.200 ohm at 20 °C and 0.210 ohm in 25 °C are a winding of 32.75 °C,
// 7.75 K above it (k = 235).
TEST(MotorOutside, RiseOfTheHandbook) { EXPECT_NEAR(expected_ohms(0.200, 20, 235, 25 + 7.75), 0.210, 1e-12); }

// By hand, to a hundredth of a kelvin: 25 ohm at 22 °C are 31 ohm in 24 °C when copper has risen by 59.56 K, aluminium
// by 57.28 K; the handbook's copper by 7.725 K with 234.5.
TEST(MotorOutside, RiseOfCopperAndAluminium) {
  const double half_a_hundredth_kelvin = 0.005 * 25 / 256.5;
  EXPECT_NEAR(expected_ohms(25, 22, constant_of_copper, 24 + 59.56), 31, half_a_hundredth_kelvin);
  EXPECT_NEAR(expected_ohms(25, 22, constant_of_aluminium, 24 + 57.28), 31, half_a_hundredth_kelvin);
  EXPECT_NEAR(expected_ohms(0.200, 20, constant_of_copper, 25 + 7.725), 0.210, 1e-12);
}

double slip_percent(double hertz, int poles, std::string_view speed) {
  FanMotorRatings ratings;
  ratings.frequency = Frequency::from_value(hertz);
  ratings.poles = poles;
  const Reading reading{.measurand = "speed", .observed = parse_observed(speed, Dimension::rotational_speed)};
  const Finding finding =
      finding_of(ratings, running, {reading}, meter_of({Dimension::rotational_speed, 0.1, 1.0, 0.1, 1000.0}));
  for (const FindingArgument& argument : finding.arguments)
    if (argument.name == "slip_percent") return std::get<double>(argument.value);
  throw std::logic_error("no slip was told");
}

// s = 1 − n·p/(120·f), by hand.
TEST(MotorOutside, Slip) {
  EXPECT_NEAR(slip_percent(60, 4, "1550 rpm"), 13.8889, 1e-5 * 13.8889);
  EXPECT_NEAR(slip_percent(60, 4, "1625 rpm"), 9.7222, 1e-5 * 9.7222);
  EXPECT_NEAR(slip_percent(50, 2, "2850 rpm"), 5.0, 1e-5 * 5.0);
}

}  // namespace
}  // namespace ohmwright::fan_motor
