#include <string>

#include <gtest/gtest.h>

#include <ohmwright/quantity/print.hpp>

namespace ohmwright {
namespace {

std::string shown(std::string_view text, Dimension dimension, int digits = 4, Spelling spelling = Spelling::ascii) {
  DisplayOptions options;
  options.significant_digits = digits;
  options.spelling = spelling;
  const StatedValue stated = parse_stated_value(text, dimension);
  options.units.prefer(stated.unit);
  return display_text(stated, options);
}

TEST(ExactText, IsTheSiValueInItsShortestForm) {
  EXPECT_EQ(exact_text(Resistance::from_value(11e3)), "11000 ohm");
  EXPECT_EQ(exact_text(Temperature::from_celsius(23.0)), "296.15 K");
  EXPECT_EQ(exact_text(Resistance::from_value(1e22)), "1e+22 ohm");
  EXPECT_EQ(exact_text(AnyQuantity(Dimension::ratio, 0.05)), "0.05");
  EXPECT_EQ(exact_text(AnyQuantity(Dimension::mass, 0.5)), "0.5 kg");
  EXPECT_EQ(exact_text(AnyQuantity(Dimension::rotational_speed, 0.1)), "0.1 rad/s");
}

TEST(ExactText, CarriesTheHalfWidth) {
  EXPECT_EQ(exact_text(parse_stated_value("11.0k \u00B1 1%", Dimension::resistance)), "11000 ohm +- 110 ohm");
  EXPECT_EQ(exact_text(parse_stated_value("73.4F \u00B1 1.8F", Dimension::temperature)), "296.15 K +- 1 K");
  EXPECT_EQ(exact_text(parse_stated_value("50 % \u00B1 1 %", Dimension::ratio)), "0.5 +- 0.01");
}

TEST(DisplayText, SpeaksTheTypedUnit) {
  EXPECT_EQ(shown("10.95 kohm", Dimension::resistance), "10.95 kohm");
  EXPECT_EQ(shown("73.4F", Dimension::temperature), "73.40 degF");
  EXPECT_EQ(shown("2800 rpm", Dimension::rotational_speed), "2800 rpm");
  EXPECT_EQ(shown("1.5 h", Dimension::duration), "1.500 h");
}

TEST(DisplayText, SpellsForTheScreenOnRequest) {
  EXPECT_EQ(shown("11 kohm", Dimension::resistance, 3, Spelling::screen), "11.0 k\u03A9");
  EXPECT_EQ(shown("23 degC", Dimension::temperature, 3, Spelling::screen), "23.0 \u00B0C");
  EXPECT_EQ(shown("12 uF +- 5 %", Dimension::capacitance, 3, Spelling::screen), "12.00 \u00B5F \u00B1 0.60 \u00B5F");
}

TEST(DisplayText, RoundsHalfAwayFromZero) {
  EXPECT_EQ(shown("22.5 W", Dimension::power, 2), "23 W");
  EXPECT_EQ(shown("-22.5 W", Dimension::power, 2), "-23 W");
  EXPECT_EQ(shown("2.675 V", Dimension::voltage, 3), "2.68 V");
  EXPECT_EQ(shown("9.996 V", Dimension::voltage, 3), "10.0 V");
  EXPECT_EQ(shown("999.96 ohm", Dimension::resistance, 4), "1000 ohm");
}

TEST(DisplayText, ChoosesAnEngineeringPrefix) {
  EXPECT_EQ(display_text(Resistance::from_value(10950.0)), "10.95 kohm");
  EXPECT_EQ(display_text(Resistance::from_value(999.96)), "1.000 kohm");
  EXPECT_EQ(display_text(AnyQuantity(Dimension::capacitance, 4.7e-9)), "4.700 nF");
  EXPECT_EQ(display_text(AnyQuantity(Dimension::energy, 1.8e6)), "500.0 Wh");
  EXPECT_EQ(display_text(Resistance::from_value(2e30)), "2.000e21 Gohm");
}

TEST(DisplayText, AFixedUnitIsKeptHoweverLongTheNumber) {
  DisplayOptions options;
  options.fixed_unit = Unit::si(Dimension::resistance);
  options.significant_digits = 3;
  EXPECT_EQ(display_text(Resistance::from_value(10'950'000.0), options), "11000000 ohm");
  EXPECT_EQ(display_text(Resistance::from_value(0.0001234), options), "0.000123 ohm");
}

TEST(DisplayText, TemperaturesShowNoMoreDecimalsNearZero) {
  EXPECT_EQ(shown("0.5 degC", Dimension::temperature), "0.50 degC");
  EXPECT_EQ(shown("0 degC", Dimension::temperature), "0.00 degC");
  EXPECT_EQ(shown("-0.001 degC", Dimension::temperature), "0.00 degC") << "no minus before a zero";
  EXPECT_EQ(shown("-18.04 degC", Dimension::temperature, 3), "-18.0 degC");
  EXPECT_EQ(shown("123.4 degF", Dimension::temperature, 2), "120 degF");
}

TEST(DisplayText, NeverRoundsBelowAbsoluteZero) {
  EXPECT_EQ(shown("-273.15 degC", Dimension::temperature), "-273.15 degC");
  EXPECT_EQ(shown("-459.67 degF", Dimension::temperature, 1), "-459.67 degF");
}

TEST(DisplayText, ZeroIsZero) {
  EXPECT_EQ(shown("0 kohm", Dimension::resistance), "0 kohm");
  EXPECT_EQ(shown("-0 A", Dimension::current), "0 A");
}

TEST(DisplayText, UncertaintyHasTwoDigitsAndTheValueTheSamePlace) {
  EXPECT_EQ(shown("10.9512 kohm \u00B1 0.1234 kohm", Dimension::resistance), "10.95 kohm +- 0.12 kohm");
  EXPECT_EQ(shown("10.9512 kohm \u00B1 0.0996 kohm", Dimension::resistance), "10.95 kohm +- 0.10 kohm");
  EXPECT_EQ(shown("10951.2 ohm \u00B1 1234 ohm", Dimension::resistance, 5), "11.0 kohm +- 1.2 kohm");
  EXPECT_EQ(shown("9.96 V \u00B1 1 V", Dimension::voltage), "10.0 V +- 1.0 V");
  EXPECT_EQ(shown("0 A \u00B1 0.01 A", Dimension::current), "0 mA +- 10 mA");
  EXPECT_EQ(shown("1 V \u00B1 50 V", Dimension::voltage), "1 V +- 50 V");
  EXPECT_EQ(shown("0.2 V \u00B1 50 V", Dimension::voltage), "0 V +- 50 V");
  EXPECT_EQ(shown("11 kohm \u00B1 0", Dimension::resistance), "11.00 kohm +- 0 kohm");
}

TEST(DisplayText, UncertaintyOfATemperatureFollowsItsScale) {
  EXPECT_EQ(shown("23 degC \u00B1 1", Dimension::temperature), "23.0 degC +- 1.0 K");
  EXPECT_EQ(shown("73.4F \u00B1 2F", Dimension::temperature), "73.4 degF +- 2.0 degF");
}

// JCGM 100:2008, 7.2.2, example of form 1: m_S = 100.021 47 g with u_c = 0.35 mg.
TEST(DisplayText, StandardUncertaintyIsToldApartFromAnInterval) {
  DisplayOptions options;
  options.fixed_unit = Unit::named("g", Dimension::mass);
  EXPECT_EQ(display_with_standard_uncertainty(AnyQuantity(Dimension::mass, 0.10002147), 0.35e-6, options),
            "100.02147 g (u = 0.00035 g)");
  EXPECT_EQ(display_with_standard_uncertainty(Resistance::from_value(10950.0), 62.1), "10.950 kohm (u = 0.062 kohm)");
}

}  // namespace
}  // namespace ohmwright
