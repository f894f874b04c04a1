#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include <ohmwright/quantity/observed.hpp>

#include "motor_readings.hpp"

// R(start-run) − R(common-run) − R(common-start) of 8.2, 14.6 and 22.9 ohm (Kirchhoff); its doubt by GUM 5.1. By hand,
// and with mpmath.

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;

Reading read(std::string_view measurand, std::string_view ohms) {
  Reading reading{.measurand = std::string(measurand), .observed = parse_observed(ohms, Dimension::resistance)};
  reading.connection = Connection::lead_off;
  return reading;
}

Finding closure(std::string_view run, std::string_view start, std::string_view ends, std::string_view leads) {
  FanMotorRatings ratings;
  ratings.construction = Construction::capacitor_run;
  return finding_of(ratings, windings_add_up,
                    {read("common_run", run), read("common_start", start), read("start_run", ends)},
                    meter_of({Dimension::resistance, 0.5, 2.0, 0.1, 600.0, leads}));
}

TEST(ClosureOutside, LeadsLeftInTurnItsSign) {
  EXPECT_NEAR(closure("8.2 ohm", "14.6 ohm", "22.9 ohm", "0 ohm +- 0 ohm").measured->value_in_si(), 0.1, 1e-9);
  EXPECT_NEAR(closure("8.4 ohm", "14.8 ohm", "23.1 ohm", "0 ohm +- 0 ohm").measured->value_in_si(), -0.1, 1e-9);
  EXPECT_NEAR(closure("8.4 ohm", "14.8 ohm", "23.1 ohm", "0.2 ohm +- 0 ohm").measured->value_in_si(), 0.1, 1e-9);
}

// Each reading with the 0.5 % + 2 × 0.1 ohm of a meter of its own.
TEST(ClosureOutside, DoubtOfThreeMeters) {
  const Finding finding =
      closure("8.2 ohm +- 0.241 ohm", "14.6 ohm +- 0.273 ohm", "22.9 ohm +- 0.3145 ohm", "0 ohm +- 0 ohm");
  EXPECT_NEAR(*finding.measured_uncertainty, 0.277801, 5e-7);
}

// Read with one meter, its percent cancel in the difference: u² = (Σ(a² − g²) + (0.005·0.1)²)/3, a the half-width of a
// reading and g its 0.5 %. The figure by hand; that a reading keeps √(a² − g²) beside the gain is our own choice.
TEST(ClosureOutside, DoubtOfOneMeter) {
  const Finding finding = closure("8.2 ohm", "14.6 ohm", "22.9 ohm", "0 ohm +- 0 ohm");
  EXPECT_NEAR(*finding.measured_uncertainty, 0.265456, 5e-7);
}

}  // namespace
}  // namespace ohmwright::fan_motor
