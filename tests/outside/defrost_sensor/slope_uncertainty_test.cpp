#include <gtest/gtest.h>

#include "sensor_fixture.hpp"

// B from two readings and its uncertainty: (0.1 ± 0.2 °C, 30 000 ohm) and (24.8 ± 0.5 °C, 9000 ohm), rectangular.
// Formula: GUM 5.1 and 5.2. B = 3968.471669 K: numpy, GSL; u(B) for independent errors 54.779082 K at u(R)/R = 0.006:
// numpy, GSL; with a common gain: mpmath.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

/// The chord across ±0.5 K is steeper than the tangent by (0.5/298)² = 2.8e-6 of the sensitivity.
constexpr double chord = 1e-5;

TEST(SlopeOutside, IndependentErrors) {
  // u(R)/R = 0.006 as a stated half-width of 0.006·√3 of each reading
  const Finding finding =
      judge_slope("30.000 kohm +- 0.311769145 kohm", "9.000 kohm +- 0.0935307436 kohm", no_leads_meter());
  EXPECT_NEAR(finding.measured->value_in_si(), 3968.471669, 3968.471669 * 1e-6);
  EXPECT_NEAR(*finding.measured_uncertainty, 54.779082, 54.779082 * chord);
}

// A meter of 0.9 % + 3 counts of 0.01 kohm on its 60 kohm range. Its bound of percent plus counts is one rectangle;
// what the shared gain leaves of that variance stays with each reading, sqrt((0.9 % + counts)² - (0.9 %)²): 50.446383 K
// from these half-widths and the 47.100930 K of the two temperatures (mpmath for the latter, python by hand for the
// sum).
TEST(SlopeOutside, SharedMeter) {
  const Finding finding = judge_slope("30.00 kohm", "9.000 kohm", no_leads_meter());
  EXPECT_NEAR(*finding.measured_uncertainty, 50.446383, 50.446383 * chord);
  EXPECT_NEAR(finding.measured->value_in_si(), 3968.471669, 3968.471669 * 1e-6);
}

// The gain as one shared source and the counts as the readings' own: exactly the case of the reference.
TEST(SlopeOutside, CommonGainCancelsInARatio) {
  Estimate difference = log_ratio_with_common_gain(30000, 30, 9000, 3, 0.009);
  EXPECT_NEAR(slope_uncertainty(difference), 47.143626, 47.143626 * chord);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
