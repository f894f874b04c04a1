#include <clocale>
#include <cmath>
#include <locale>
#include <optional>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright {
namespace {

double si(std::string_view text, Dimension dimension) {
  return parse_stated_value(text, dimension).value.value_in_si();
}
double ohms(std::string_view text) { return si(text, Dimension::resistance); }
double kelvins(std::string_view text) { return si(text, Dimension::temperature); }

TEST(StatedValue, ReadsWhatPeopleWrite) {
  EXPECT_EQ(ohms("11.0 kohm"), 11000.0);
  EXPECT_EQ(ohms("11k\u03A9"), 11000.0);
  EXPECT_EQ(ohms("11.0k"), 11000.0);
  EXPECT_EQ(ohms("\t 470 ohm  "), 470.0);
  EXPECT_EQ(ohms("10R"), 10.0);
  EXPECT_EQ(ohms("2 G\u2126"), 2e9);
  EXPECT_EQ(ohms("500 Mohm"), 500e6);
  EXPECT_EQ(ohms("11\u202Fk\u03A9"), 11000.0) << "narrow no-break space of typesetters";
  EXPECT_EQ(si("0.5 A", Dimension::current), 0.5);
  EXPECT_EQ(si(".5A", Dimension::current), 0.5);
  EXPECT_EQ(si("120 V", Dimension::voltage), 120.0);
  EXPECT_EQ(si("450W", Dimension::power), 450.0);
  EXPECT_EQ(si("12uF", Dimension::capacitance), 12e-6);
  EXPECT_EQ(si("12 MFD", Dimension::capacitance), 12e-6);
  EXPECT_EQ(si("35 mH", Dimension::inductance), 35e-3);
  EXPECT_EQ(si("60 Hz", Dimension::frequency), 60.0);
  EXPECT_EQ(si("1.2 kWh", Dimension::energy), 4.32e6);
  EXPECT_EQ(si("25 min", Dimension::duration), 1500.0);
  EXPECT_EQ(si("566.6 g", Dimension::mass), 0.5666);
  EXPECT_EQ(si("65 mm", Dimension::length), 0.065);
  EXPECT_EQ(si("5 %", Dimension::ratio), 0.05);
  EXPECT_EQ(si("0.05", Dimension::ratio), 0.05);
  EXPECT_DOUBLE_EQ(si("2800 rpm", Dimension::rotational_speed), 293.21531433504737);  // 2800 * 2 pi / 60
}

TEST(StatedValue, ReadsTemperaturesOnThreeScales) {
  EXPECT_EQ(kelvins("23C"), 296.15);
  EXPECT_EQ(kelvins("23 \u00B0C"), 296.15);
  EXPECT_EQ(kelvins("23 \u2103"), 296.15);
  EXPECT_EQ(kelvins("73.4F"), 296.15);
  EXPECT_EQ(kelvins("296.15K"), 296.15);
  EXPECT_EQ(kelvins("-18 degC"), 255.14999999999998);
  EXPECT_EQ(kelvins("\u221218 degC"), kelvins("-18 degC")) << "the true minus sign";
  EXPECT_EQ(kelvins("-273.15 degC"), 0.0);
  EXPECT_EQ(kelvins("-459.67 F"), 0.0);
}

TEST(StatedValue, ReadsTheWaysInWhichATemperatureIsTyped) {
  for (const std::string_view text :
       {"23c", "23 c", "23degc", "23 degc", "23 deg C", "23 deg c", "23 DEG C", "23 degrees C", "23degrees celsius",
        "23 Celsius", "23 \u00B0 C", "23\u00B0c", "23\u00BAC", "23 deg C +- 1 deg C", "23 +- 1 deg C"}) {
    EXPECT_EQ(kelvins(text), 296.15) << text;
  }
  for (const std::string_view text : {"73.4f", "73.4 f", "73.4 deg F", "73.4degf", "73.4 degrees Fahrenheit"}) {
    EXPECT_EQ(kelvins(text), 296.15) << text;
  }
  EXPECT_EQ(parse_stated_value("23 deg C +- 2 deg C", Dimension::temperature).half_width, 2.0);
}

TEST(StatedValue, ReadsTheWaysInWhichOhmsAreTyped) {
  for (const std::string_view text : {"11 k", "11K", "11 K", "11 k\u03A9", "11kohms", "11 KOHM", "11 kOhms", "11 k ohm",
                                      "11 K Ohms", "11 kilohm", "11 Kilohms", "11 kilo ohm", "11kiloohms"}) {
    EXPECT_EQ(ohms(text), 11000.0) << text;
  }
  EXPECT_EQ(ohms("2 mega ohm"), 2e6);
  EXPECT_EQ(ohms("(11.0 +- 0.1) k ohm"), 11000.0);
}

TEST(StatedValue, ReadsSmallLettersWhereTheyCanMeanOneThingOnly) {
  EXPECT_EQ(si("118v", Dimension::voltage), 118.0);
  EXPECT_EQ(si("118 VAC", Dimension::voltage), 118.0);
  EXPECT_EQ(si("3.6a", Dimension::current), 3.6);
  EXPECT_EQ(si("20 ma", Dimension::current), 0.02);
  EXPECT_EQ(si("450w", Dimension::power), 450.0);
  EXPECT_EQ(si("60hz", Dimension::frequency), 60.0);
  EXPECT_EQ(si("12uf", Dimension::capacitance), 12e-6);
  EXPECT_EQ(si("12 Mfd", Dimension::capacitance), 12e-6);
  EXPECT_EQ(si("1.2 KWH", Dimension::energy), 4.32e6);
  EXPECT_EQ(si("25 Min", Dimension::duration), 1500.0);
  EXPECT_DOUBLE_EQ(si("2800 Rpm", Dimension::rotational_speed), 293.21531433504737);
}

TEST(StatedValue, ADifferenceOfTemperaturesHasNoZeroOfItsOwn) {
  EXPECT_EQ(si("0.5 K", Dimension::temperature_difference), 0.5);
  EXPECT_EQ(si("1 degC", Dimension::temperature_difference), 1.0);
  EXPECT_EQ(si("9 F", Dimension::temperature_difference), 5.0);
  EXPECT_EQ(si("-3 K", Dimension::temperature_difference), -3.0);
}

// The letter code of IEC 60062:2016, examples of its clause on letter and digit codes, from memory.
TEST(StatedValue, ReadsLetterCodesOfIec60062) {
  EXPECT_EQ(ohms("R33"), 0.33);
  EXPECT_EQ(ohms("3R32"), 3.32);
  EXPECT_EQ(ohms("33R2"), 33.2);
  EXPECT_EQ(ohms("332R"), 332.0);
  EXPECT_EQ(ohms("4k7"), 4700.0);
  EXPECT_EQ(ohms("4K7"), 4700.0);
  EXPECT_EQ(ohms("10k7"), 10700.0);
  EXPECT_EQ(ohms("1M2"), 1.2e6);
  EXPECT_EQ(ohms("3G32"), 3.32e9);
  EXPECT_EQ(ohms("4k7 ohm"), 4700.0);
  EXPECT_EQ(si("p33", Dimension::capacitance), 0.33e-12);
  EXPECT_EQ(si("4n7", Dimension::capacitance), 4.7e-9);
  EXPECT_EQ(si("1\u00B55", Dimension::capacitance), 1.5e-6);
  EXPECT_EQ(si("3m32F", Dimension::capacitance), 3.32e-3);
}

TEST(StatedValue, APrefixCostsNoRounding) {
  EXPECT_EQ(si("1.1 uF", Dimension::capacitance), 1.1e-6);
  EXPECT_EQ(si("3.3 pF", Dimension::capacitance), 3.3e-12);
  EXPECT_EQ(ohms("11.1 kohm"), 11100.0);
  EXPECT_EQ(ohms("0.1e-3 Mohm"), 100.0);
  EXPECT_EQ(ohms("00011.000 kohm"), 11000.0);
}

TEST(StatedValue, ReadsAnUncertaintyAfterAnyOfThreeMarks) {
  for (const std::string_view text :
       {"11.0 kohm \u00B1 0.11 kohm", "11.0kohm+-110ohm", "11.0 kohm +/- 0.11", "11.0k\u00B11%", "11.0 +- 0.11 kohm",
        "(11.0 \u00B1 0.11) kohm", "11k0 +- 0k11"}) {
    const StatedValue stated = parse_stated_value(text, Dimension::resistance);
    EXPECT_EQ(stated.value.value_in_si(), 11000.0) << text;
    EXPECT_EQ(stated.half_width, 110.0) << text;
    EXPECT_EQ(stated.unit.symbol(), "kohm") << text;
  }
  EXPECT_EQ(parse_stated_value("11.0 kohm", Dimension::resistance).half_width, std::nullopt);
  EXPECT_EQ(parse_stated_value("11.0 kohm +- 0", Dimension::resistance).half_width, 0.0);
}

TEST(StatedValue, AnUncertaintyOfATemperatureIsADifference) {
  const auto half_width = [](std::string_view text) {
    return parse_stated_value(text, Dimension::temperature).half_width;
  };
  EXPECT_EQ(half_width("23C \u00B1 1K"), 1.0);
  EXPECT_EQ(half_width("23C \u00B1 1"), 1.0);
  EXPECT_EQ(half_width("73.4F \u00B1 1.8F"), 1.0);
  EXPECT_EQ(half_width("73.4F \u00B1 1.8"), 1.0);
  EXPECT_EQ(half_width("73.4 \u00B1 1.8 F"), 1.0);
  EXPECT_EQ(half_width("296.15 K \u00B1 0.5"), 0.5);
}

TEST(StatedValue, PercentOfANegativeValueWidensAllTheSame) {
  EXPECT_EQ(parse_stated_value("-2 A +- 5 %", Dimension::current).half_width, 0.1);
}

TEST(StatedValue, PercentAfterARatioArePercentagePoints) {
  const StatedValue stated = parse_stated_value("50 % \u00B1 1 %", Dimension::ratio);
  EXPECT_EQ(stated.value.value_in_si(), 0.5);
  EXPECT_EQ(stated.half_width, 0.01);
}

TEST(StatedValue, ADefaultUnitCompletesABareNumberAndSaysSo) {
  StatedValueOptions options;
  options.default_unit = Unit::named("degC", Dimension::temperature);
  const StatedValue bare = parse_stated_value("23", Dimension::temperature, options);
  EXPECT_EQ(bare.value.value_in_si(), 296.15);
  EXPECT_TRUE(bare.unit_assumed);
  EXPECT_EQ(bare.unit.symbol(), "degC");
  const StatedValue typed = parse_stated_value("73.4 F", Dimension::temperature, options);
  EXPECT_EQ(typed.value.value_in_si(), 296.15);
  EXPECT_FALSE(typed.unit_assumed);
}

TEST(StatedValue, ADefaultTemperatureUnitKeepsKelvinForTheUncertainty) {
  StatedValueOptions options;
  options.default_unit = Unit::named("degC", Dimension::temperature);
  const StatedValue stated = parse_stated_value("23 +- 1 K", Dimension::temperature, options);
  EXPECT_EQ(stated.value.value_in_si(), 296.15);
  EXPECT_EQ(stated.half_width, 1.0);
  EXPECT_EQ(parse_stated_value("73.4 +- 1.8 F", Dimension::temperature, options).value.value_in_si(), 296.15);
}

TEST(StatedValue, ZeroKeepsItsSign) {
  EXPECT_FALSE(std::signbit(ohms("0 ohm")));
  EXPECT_TRUE(std::signbit(ohms("-0 ohm")));
  EXPECT_EQ(ohms("0e999 ohm"), 0.0);
}

TEST(StatedValue, ReadsTheSmallestAndTheLargestDouble) {
  EXPECT_EQ(ohms("5e-324 ohm"), 5e-324);
  EXPECT_EQ(ohms("1.7976931348623157e308 ohm"), 1.7976931348623157e308);
}

class CommaAsDecimalPoint : public std::numpunct<char> {
 protected:
  char do_decimal_point() const override { return ','; }
};

TEST(StatedValue, TheLocaleDoesNotMatter) {
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new CommaAsDecimalPoint));
  std::setlocale(LC_NUMERIC, "de_DE.UTF-8");  // does nothing where that locale is not installed
  EXPECT_EQ(ohms("11.5 kohm"), 11500.0);
  EXPECT_EQ(exact_text(Resistance::from_value(11.5)), "11.5 ohm");
  EXPECT_EQ(display_text(Resistance::from_value(11.5)), "11.50 ohm");
  std::setlocale(LC_NUMERIC, "C");
  std::locale::global(before);
}

TEST(StatedValue, NoOhmsNeedNoUnit) {
  const StatedValue zero = parse_stated_value("0", Dimension::resistance, {});
  EXPECT_EQ(zero.value.value_in_si(), 0.0);
  EXPECT_TRUE(zero.unit_assumed);
}

}  // namespace
}  // namespace ohmwright
