#include <cmath>
#include <numbers>
#include <optional>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright {
namespace {

TEST(UnitTable, EverySymbolNamesItsUnitInBothSpellings) {
  for (std::size_t place = 0; place < dimension_count; ++place) {
    const auto dimension = static_cast<Dimension>(place);
    std::set<std::string> symbols;
    for (const Unit unit : Unit::all_of(dimension)) {
      SCOPED_TRACE(std::string(name_of(dimension)) + " " + unit.symbol());
      EXPECT_EQ(unit.dimension(), dimension);
      EXPECT_TRUE(symbols.insert(unit.symbol()).second) << "two units of one symbol";
      if (unit.symbol().empty()) continue;  // the unit one of a ratio is not written
      EXPECT_EQ(Unit::named(unit.symbol(Spelling::ascii), dimension), unit);
      EXPECT_EQ(Unit::named(unit.symbol(Spelling::screen), dimension), unit);
      for (const char letter : unit.symbol()) EXPECT_TRUE(static_cast<unsigned char>(letter) < 0x80);
    }
  }
}

TEST(UnitTable, SiUnitHasFactorOneAndTheSymbolOfMachineOutput) {
  for (std::size_t place = 0; place < dimension_count; ++place) {
    const auto dimension = static_cast<Dimension>(place);
    const Unit unit = Unit::si(dimension);
    EXPECT_EQ(unit.symbol().empty() ? "1" : unit.symbol(), si_unit_of(dimension));
    EXPECT_EQ(unit.decimal_shift(), 0);
    EXPECT_EQ(unit.to_si(17.25), 17.25);
    EXPECT_EQ(unit.from_si(17.25), 17.25);
    EXPECT_TRUE(unit.zero_is_absolute());
  }
}

TEST(UnitTable, BothOmegasAndBothMusAreRead) {
  const std::optional<Unit> kilohm = Unit::named("kohm", Dimension::resistance);
  EXPECT_EQ(Unit::named("k\u03A9", Dimension::resistance), kilohm);
  EXPECT_EQ(Unit::named("k\u2126", Dimension::resistance), kilohm);
  EXPECT_EQ(Unit::named("Kohm", Dimension::resistance), kilohm);
  EXPECT_EQ(Unit::named("k", Dimension::resistance), kilohm);
  const std::optional<Unit> microfarad = Unit::named("uF", Dimension::capacitance);
  EXPECT_EQ(Unit::named("\u00B5F", Dimension::capacitance), microfarad);
  EXPECT_EQ(Unit::named("\u03BCF", Dimension::capacitance), microfarad);
  EXPECT_EQ(Unit::named("MFD", Dimension::capacitance), microfarad);
}

TEST(UnitTable, MeaningFollowsWhatIsExpected) {
  EXPECT_EQ(Unit::named("F", Dimension::capacitance)->symbol(), "F");
  EXPECT_EQ(Unit::named("F", Dimension::temperature)->symbol(), "degF");
  EXPECT_EQ(Unit::named("C", Dimension::temperature)->symbol(), "degC");
  EXPECT_EQ(Unit::named("C", Dimension::capacitance), std::nullopt);
  EXPECT_EQ(Unit::named("K", Dimension::temperature)->symbol(), "K");
  EXPECT_EQ(Unit::named("K", Dimension::resistance)->symbol(), "kohm");
  EXPECT_EQ(Unit::named("m", Dimension::length)->symbol(), "m");
  EXPECT_EQ(Unit::named("m", Dimension::resistance), std::nullopt) << "m and M must not be mistaken for each other";
  EXPECT_EQ(Unit::named("m", Dimension::duration), std::nullopt);
}

TEST(UnitTable, PrefixCaseMatters) {
  EXPECT_EQ(Unit::named("mohm", Dimension::resistance)->prefix_exponent(), -3);
  EXPECT_EQ(Unit::named("Mohm", Dimension::resistance)->prefix_exponent(), 6);
  EXPECT_EQ(Unit::named("kdegC", Dimension::temperature), std::nullopt);
  EXPECT_EQ(Unit::named("mmin", Dimension::duration), std::nullopt);
}

// NIST SP 811:2008, B.8: exact factors.
TEST(UnitTable, FactorsAreThoseOfNistSp811) {
  EXPECT_EQ(Unit::named("kWh", Dimension::energy)->to_si(1.0), 3.6e6);
  EXPECT_EQ(Unit::named("min", Dimension::duration)->to_si(1.0), 60.0);
  EXPECT_EQ(Unit::named("h", Dimension::duration)->to_si(1.0), 3600.0);
  EXPECT_EQ(Unit::named("d", Dimension::duration)->to_si(1.0), 86400.0);
  EXPECT_DOUBLE_EQ(Unit::named("rpm", Dimension::rotational_speed)->to_si(60.0),
                   2.0 * std::numbers::pi);  // rounded twice on either side
  EXPECT_EQ(Unit::named("degF", Dimension::temperature_difference)->to_si(9.0), 5.0);
  EXPECT_EQ(Unit::named("degF", Dimension::temperature)->to_si(212.0), 373.15);
  EXPECT_EQ(Unit::named("g", Dimension::mass)->to_si(500.0), 0.5);
  EXPECT_EQ(Unit::named("%", Dimension::ratio)->to_si(5.0), 0.05);
}

TEST(UnitTable, TemperatureUnitsAgreeWithTheTemperatureType) {
  for (int seventh = -1400; seventh < 1400; ++seventh) {
    const double number = seventh / 7.0;
    EXPECT_EQ(Unit::named("degC", Dimension::temperature)->to_si(number), Temperature::from_celsius(number).kelvin());
    EXPECT_EQ(Unit::named("degF", Dimension::temperature)->to_si(number),
              Temperature::from_fahrenheit(number).kelvin());
  }
}

TEST(UnitTable, NumbersComeBackFromTheSiUnit) {
  for (std::size_t place = 0; place < dimension_count; ++place) {
    for (const Unit unit : Unit::all_of(static_cast<Dimension>(place))) {
      // Tolerance: the way there and back is at most six roundings; a temperature is counted from 273.15 K.
      EXPECT_NEAR(unit.from_si(unit.to_si(12.5)), 12.5, unit.zero_is_absolute() ? 12.5 * 7e-16 : 3e-13)
          << unit.symbol();
    }
  }
}

TEST(UnitTable, DifferencesOfATemperatureHaveNoZeroOfTheirOwn) {
  const Unit difference = Unit::named("degF", Dimension::temperature)->of_differences();
  EXPECT_EQ(difference.dimension(), Dimension::temperature_difference);
  EXPECT_EQ(difference.symbol(), "degF");
  EXPECT_EQ(difference.to_si(0.0), 0.0);
  const Unit ohm = Unit::si(Dimension::resistance);
  EXPECT_EQ(ohm.of_differences(), ohm);
}

TEST(UnitTable, PrefixForAPowerOfTenIsTheLargestThatFits) {
  const Unit ohm = Unit::si(Dimension::resistance);
  EXPECT_EQ(ohm.with_prefix_for(2).symbol(), "ohm");
  EXPECT_EQ(ohm.with_prefix_for(3).symbol(), "kohm");
  EXPECT_EQ(ohm.with_prefix_for(8).symbol(), "Mohm");
  EXPECT_EQ(ohm.with_prefix_for(99).symbol(), "Gohm");
  EXPECT_EQ(ohm.with_prefix_for(-1).symbol(), "mohm");
  EXPECT_EQ(ohm.with_prefix_for(-99).symbol(), "uohm");
  EXPECT_EQ(Unit::si(Dimension::length).with_prefix_for(-2).symbol(), "mm") << "centimetres are read, never chosen";
  EXPECT_EQ(Unit::named("rpm", Dimension::rotational_speed)->with_prefix_for(6).symbol(), "rpm");
}

}  // namespace
}  // namespace ohmwright
