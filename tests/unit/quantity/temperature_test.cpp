#include <gtest/gtest.h>

#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright {
namespace {

// Exact by definition: 0 degC = 273.15 K (SI brochure, 9th edition, 2.3.1); 0 degC = 32 degF, 1 K = 1.8 degF
// (NIST SP 811:2008, B.8).
TEST(Temperature, ScalesMeetAtTheirDefinedPoints) {
  EXPECT_EQ(Temperature::from_celsius(0.0).kelvin(), 273.15);
  EXPECT_EQ(Temperature::from_fahrenheit(32.0).kelvin(), 273.15);
  EXPECT_EQ(Temperature::from_fahrenheit(212.0).kelvin(), 373.15);
  EXPECT_EQ(Temperature::from_fahrenheit(-459.67).kelvin(), 0.0);
  EXPECT_EQ(Temperature::from_fahrenheit(-40.0), Temperature::from_celsius(-40.0));
}

TEST(Temperature, ReadsBackOnEveryScale) {
  // Tolerance: half a dozen roundings of numbers up to 512, each at most 2^-45.
  constexpr double tolerance = 3e-13;
  for (int tenth = -600; tenth <= 2000; ++tenth) {
    const double number = tenth / 10.0;
    EXPECT_NEAR(Temperature::from_celsius(number).celsius(), number, tolerance);
    EXPECT_NEAR(Temperature::from_fahrenheit(number).fahrenheit(), number, tolerance);
  }
}

TEST(Temperature, DifferenceOfPointsMovesAPoint) {
  const Temperature cold = Temperature::from_celsius(-18.0);
  const Temperature warm = Temperature::from_celsius(4.5);
  const TemperatureDifference rise = warm - cold;
  EXPECT_EQ(rise, TemperatureDifference::from_value(22.5));
  EXPECT_EQ(cold + rise, warm);
  EXPECT_EQ(rise + cold, warm);
  EXPECT_EQ(warm - rise, cold);
  EXPECT_LT(cold, warm);
}

}  // namespace
}  // namespace ohmwright
