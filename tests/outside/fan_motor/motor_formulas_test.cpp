#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include <ohmwright/component/judgement.hpp>

#include "fan_motor_kind.hpp"
#include "fan_motor_part.hpp"
#include "part/fan_motor_ratings.hpp"
#include "rules/names.hpp"

// Winding resistance against temperature (IEC 60034-1 form; 234.5 and 225 as product standards have them), synchronous
// speed 120 f/p, and a whole verdict against numbers worked with Monte Carlo and the closed form outside of this
// project.

namespace ohmwright::fan_motor {
namespace {

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

TEST(MotorOutside, AWarmMotorIsNotJudgedByItsColdSheet) {
  // 82 ohm ± 7 % at 25 °C; the meter shows 77.8 ohm, 0.9 % + 2 × 0.1 ohm, leads 0.3 ± 0.05 ohm, winding 31 ± 3 °C, all
  // rectangular: 75.748588 ohm, u 0.709255 ohm, P(within) 0.235438.
  FanMotorRatings ratings;
  ratings.winding = Resistance::from_value(82.0);
  ratings.winding_tolerance = 0.07;
  const FanMotorPart part(ratings);
  const FanMotorKind kind;
  MeterFunction function;
  function.dimension = Dimension::resistance;
  function.ranges.push_back(
      {AnyQuantity(Dimension::resistance, 600.0), 0.9, 2.0, AnyQuantity(Dimension::resistance, 0.1)});
  const MeterSet meters({{"meter",
                          "Meter",
                          "test",
                          {function},
                          parse_stated_value("0.3 ohm +- 0.05 ohm", Dimension::resistance),
                          false}});
  Reading reading{
      .label = "reading 1", .measurand = "winding", .observed = parse_observed("77.8 ohm", Dimension::resistance)};
  reading.conditions.push_back(
      {"part_temperature", parse_stated_value("31 degC +- 3 K", Dimension::temperature), "", false});
  reading.connection = Connection::lead_off;
  const std::vector<Reading> readings{reading};
  const Evidence evidence(kind.descriptor(), readings, meters);
  Findings findings;
  part.judge(evidence, {}, findings);
  for (const Finding& finding : findings.findings()) {
    if (finding.rule != winding_resistance) continue;
    EXPECT_NEAR(finding.measured->value_in_si(), 75.748588, 5e-7);
    EXPECT_NEAR(*finding.measured_uncertainty, 0.709255, 2e-6);
    // The source takes the sum as normal; the verdict takes the rectangles as they are.
    const double z = (76.26 - finding.measured->value_in_si()) / *finding.measured_uncertainty;
    EXPECT_NEAR(0.5 * std::erfc(z / std::numbers::sqrt2), 0.235438, 2e-6);
    EXPECT_NEAR(finding.probability, share_above(76.26), 2e-5);
    EXPECT_EQ(finding.outcome, Outcome::undecided);
    return;
  }
  FAIL() << "the rule did not speak";
}

}  // namespace
}  // namespace ohmwright::fan_motor
