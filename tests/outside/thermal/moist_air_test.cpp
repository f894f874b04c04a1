#include <gtest/gtest.h>

#include <ohmwright/thermal/moist_air.hpp>

namespace ohmwright::thermal {
namespace {

double kelvin(double celsius) { return celsius + 273.15; }

// Printed: ASHRAE Fundamentals 2017, chapter 1, as the tests of an open psychrometrics library (psychrolib) quote it;
// the formula lies within 300 ppm of the print. The longer digits: the formula in 30 digits by an independent program,
// and that library prints the same.
TEST(SaturationPressure, IsThatOfTheTables) {
  struct Row {
    double celsius, printed_pascal, formula_pascal;
  };
  for (const Row& row : {Row{-20.0, 103.24, 103.260379}, Row{-5.0, 401.74, 401.764122}, Row{5.0, 872.6, 872.486654},
                         Row{25.0, 3169.7, 3169.216470}, Row{50.0, 12351.3, 12349.856467}}) {
    const double pascal = saturation_pressure(kelvin(row.celsius));
    EXPECT_NEAR(pascal, row.printed_pascal, 3e-4 * row.printed_pascal) << row.celsius;
    EXPECT_NEAR(pascal, row.formula_pascal, 1e-8 * row.formula_pascal) << row.celsius;
  }
}

// Hyland-Wexler form by two independent programs (numpy, GSL).
TEST(SaturationPressure, OverIceAndWater) {
  EXPECT_NEAR(saturation_pressure_over_ice(kelvin(-18.0)), 124.9209, 124.9209e-6);
  EXPECT_NEAR(saturation_pressure_over_ice(kelvin(-30.0)), 38.0157, 5e-5);
  EXPECT_NEAR(saturation_pressure_over_ice(kelvin(-10.0)), 259.9029, 5e-5);
  EXPECT_NEAR(saturation_pressure_over_water(kelvin(0.0)), 611.2129, 5e-5);
  EXPECT_NEAR(saturation_pressure_over_water(kelvin(25.0)), 3169.2165, 3169.2165e-6);
}

// Murphy and Koop, Q. J. R. Meteorol. Soc. 131 (2005), over ice: 124.9120 Pa at -18 °C, another formula for the same.
TEST(SaturationPressure, AgreesWithAnotherFormula) {
  EXPECT_NEAR(saturation_pressure_over_ice(kelvin(-18.0)), 124.9120, 1e-4 * 124.9120);
}

// Ideal gas, by two independent programs: 25 °C, 60 %, 101 325 Pa; saturated at -18 and 20 °C.
TEST(HumidityRatio, OfRoomAndOfSaturatedAir) {
  const double pascal = 0.6 * saturation_pressure(kelvin(25.0));
  EXPECT_NEAR(humidity_ratio(pascal), 0.01189505, 0.01189505e-6);
  EXPECT_NEAR(humidity_ratio(saturation_pressure(kelvin(-18.0))), 0.00076773, 5e-9);
  EXPECT_NEAR(humidity_ratio(saturation_pressure(kelvin(20.0))), 0.01469505, 5e-9);
}

// Half the air of 150 litres at -18 °C for room air of 25 °C and 60 %: 1.153114 g by the dry air that fills the cold
// volume (gas constant 287.055 J/(kg K)), by an independent program.
TEST(FrostOfAnOpening, IsAboutAGram) { EXPECT_NEAR(1000.0 * frost_of_opening({}), 1.153114, 1.2e-6); }

}  // namespace
}  // namespace ohmwright::thermal
