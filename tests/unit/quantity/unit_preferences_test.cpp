#include <string>

#include <gtest/gtest.h>

#include <ohmwright/quantity/unit_preferences.hpp>

namespace ohmwright {
namespace {

std::string customary(double value_in_si, Dimension dimension) {
  return UnitPreferences().unit_for(AnyQuantity(dimension, value_in_si)).symbol();
}

TEST(UnitPreferences, WithoutAWishTheTradesUnitsAreShown) {
  EXPECT_EQ(customary(11e3, Dimension::resistance), "kohm");
  EXPECT_EQ(customary(500e6, Dimension::resistance), "Mohm");
  EXPECT_EQ(customary(0.47, Dimension::resistance), "ohm");
  EXPECT_EQ(customary(0.03, Dimension::resistance), "mohm");
  EXPECT_EQ(customary(0.0, Dimension::resistance), "ohm");
  EXPECT_EQ(customary(12e-6, Dimension::capacitance), "uF");
  EXPECT_EQ(customary(250.0, Dimension::temperature), "degC");
  EXPECT_EQ(customary(0.5, Dimension::temperature_difference), "K");
  EXPECT_EQ(customary(293.2, Dimension::rotational_speed), "rpm");
  EXPECT_EQ(customary(0.05, Dimension::ratio), "%");
  EXPECT_EQ(customary(4.32e6, Dimension::energy), "kWh");
  EXPECT_EQ(customary(45.0, Dimension::duration), "s");
  EXPECT_EQ(customary(1500.0, Dimension::duration), "min");
  EXPECT_EQ(customary(36000.0, Dimension::duration), "h");
  EXPECT_EQ(customary(0.5666, Dimension::mass), "g");
  EXPECT_EQ(customary(0.065, Dimension::length), "mm");
}

TEST(UnitPreferences, FahrenheitBringsItsDifferencesAlong) {
  UnitPreferences preferences;
  preferences.prefer(*Unit::named("F", Dimension::temperature));
  EXPECT_EQ(preferences.unit_for(Temperature::from_celsius(23.0)).symbol(), "degF");
  EXPECT_EQ(preferences.unit_for(TemperatureDifference::from_value(1.0)).symbol(), "degF");
  preferences.prefer(*Unit::named("C", Dimension::temperature));
  EXPECT_EQ(preferences.unit_for(Temperature::from_celsius(23.0)).symbol(), "degC");
  EXPECT_EQ(preferences.unit_for(TemperatureDifference::from_value(1.0)).symbol(), "K");
}

TEST(UnitPreferences, KeepsTheTypedPrefixWhileItIsReadable) {
  UnitPreferences preferences;
  preferences.prefer(*Unit::named("ohm", Dimension::resistance));
  EXPECT_EQ(preferences.unit_for(Resistance::from_value(9851.2)).symbol(), "ohm");
  EXPECT_EQ(preferences.unit_for(Resistance::from_value(12040.0)).symbol(), "kohm");
  preferences.prefer(*Unit::named("kohm", Dimension::resistance));
  EXPECT_EQ(preferences.unit_for(Resistance::from_value(500.0)).symbol(), "kohm");
  EXPECT_EQ(preferences.unit_for(Resistance::from_value(0.5)).symbol(), "mohm");
  EXPECT_EQ(preferences.unit_for(Resistance::from_value(500e6)).symbol(), "Mohm");
}

TEST(UnitPreferences, TheRoundedNumberChoosesThePrefix) {
  const UnitPreferences preferences;
  EXPECT_EQ(preferences.unit_for(Resistance::from_value(999.96), 4).symbol(), "kohm");
  EXPECT_EQ(preferences.unit_for(Resistance::from_value(999.96), 5).symbol(), "ohm");
}

}  // namespace
}  // namespace ohmwright
