#include <array>
#include <optional>

#include <gtest/gtest.h>

#include "heater_part.hpp"
#include "part/alloy.hpp"
#include "part/heater_ratings.hpp"
#include "part/leakage.hpp"
#include "part/power_by_ohms.hpp"
#include "rules/names.hpp"

// R = V²/P (Ohm and Joule), resistance factors of alloy makers' tables (GB/T 1234 carries the same, from memory), and
// the tolerance of rated input of IEC 60335-1 clause 10 (from memory).

namespace ohmwright::heater {
namespace {

HeaterRatings rated(double volt, double watt, Alloy alloy = Alloy::unknown) {
  HeaterRatings ratings;
  ratings.voltage = Voltage::from_value(volt);
  ratings.power = Power::from_value(watt);
  ratings.tolerance = usual_tolerance(*ratings.power);
  ratings.alloy = alloy;
  return ratings;
}

TEST(RatedResistanceOutside, VoltsSquaredByWatts) {
  EXPECT_NEAR(rated(120, 450).cold().nominal, 32.0, 1e-12);
  EXPECT_NEAR(rated(120, 600).cold().nominal, 24.0, 1e-12);
  EXPECT_NEAR(rated(115, 400).cold().nominal, 33.0625, 1e-12);
  EXPECT_NEAR(rated(230, 180).cold().nominal, 293.888889, 5e-7);
  EXPECT_NEAR(rated(230, 2000).cold().nominal, 26.45, 1e-12);
  EXPECT_NEAR(rated(240, 5200).cold().nominal, 11.076923, 5e-7);
}

/// What a good one reads under a condition. Throws std::bad_optional_access when the part does not know.
Expectation expected(const HeaterRatings& ratings, MeasurandIndex measurand, ConditionIndex condition, double si) {
  const std::array<ConditionValue, 1> given{{{condition, si}}};
  return HeaterPart(ratings).expect(measurand, Situation(given)).value();
}

double amperes(double volt, double watt) {
  return expected(rated(volt, watt), current, line_voltage, volt).nominal.value_in_si();
}

// I = P/V; seven digits by hand.
TEST(RatedCurrentOutside, WattsByVolts) {
  EXPECT_NEAR(amperes(120, 450), 3.75, 1e-12);
  EXPECT_NEAR(amperes(120, 600), 5.0, 1e-12);
  EXPECT_NEAR(amperes(115, 400), 3.478261, 5e-7);
  EXPECT_NEAR(amperes(230, 180), 0.782609, 5e-7);
  EXPECT_NEAR(amperes(240, 5200), 21.666667, 5e-7);
}

// P = Pr·(V/Vr)² (Joule): exact.
TEST(RatedPowerOutside, SquareOfTheVolts) {
  const auto watts = [](double line) {
    return expected(rated(120, 450), power, line_voltage, line).nominal.value_in_si();
  };
  EXPECT_NEAR(watts(108), 364.5, 1e-10);
  EXPECT_NEAR(watts(110), 378.125, 1e-10);
  EXPECT_NEAR(watts(126), 496.125, 1e-10);
}

Limits cold_limits(Alloy alloy, std::optional<double> wire_celsius = std::nullopt) {
  HeaterRatings ratings = rated(120, 450, alloy);
  if (wire_celsius) ratings.wire_temperature = Temperature::from_celsius(*wire_celsius);
  return expected(ratings, resistance, part_temperature, Temperature::from_celsius(20).kelvin()).limits;
}

// 450 W, 120 V, +5/-10 %: V²/(1.05·P·Ct) to V²/(0.90·P), exact fractions. The gains Ct come from the tables of alloy
// makers: FeCrAl 25/5 has 1.03 at 600 °C, NiCr 60/15 1.07 a quarter of the way from 600 (1.069) to 700 °C (1.073).
TEST(RatedResistanceOutside, TheGainOfTheWireMovesTheLowerLimit) {
  const auto lower = [](Alloy alloy, std::optional<double> wire_celsius = std::nullopt) {
    return cold_limits(alloy, wire_celsius).lower->value_in_si();
  };
  EXPECT_NEAR(lower(Alloy::nicr_80_20, 20), 30.476190, 30.476190 * 1e-7);
  EXPECT_NEAR(lower(Alloy::fecral_25_5, 600), 29.588534, 29.588534 * 1e-7);
  EXPECT_NEAR(lower(Alloy::nicr_60_15, 625), 28.482421, 28.482421 * 1e-7);
  // One that is rich in iron gains most: NiCr 35/20 has 1.188 at 800 °C. 14400/(1.05·450·1.188), exact.
  EXPECT_NEAR(lower(Alloy::unknown_or_iron), 25.653359, 25.653359 * 1e-7);
}

TEST(RatedResistanceOutside, AnUnknownWireLeavesTheUpperLimit) {
  for (const Alloy alloy : {Alloy::unknown, Alloy::unknown_or_iron})
    EXPECT_NEAR(cold_limits(alloy).upper->value_in_si(), 35.555556, 35.555556 * 1e-7);
}

// Tables of alloy makers, as printed.
TEST(RatedResistanceOutside, FactorsOfTheAlloys) {
  constexpr std::array<double, 9> celsius{100, 200, 300, 400, 500, 600, 700, 800, 1000};
  struct Printed {
    Alloy alloy;
    std::array<double, 9> factors;
  };
  constexpr std::array<Printed, 5> table{{
      {Alloy::nicr_80_20, {1.006, 1.012, 1.018, 1.025, 1.026, 1.018, 1.010, 1.008, 1.014}},
      {Alloy::nicr_60_15, {1.011, 1.024, 1.038, 1.052, 1.064, 1.069, 1.073, 1.078, 1.095}},
      {Alloy::fecral_25_5, {1.002, 1.005, 1.008, 1.013, 1.021, 1.030, 1.038, 1.040, 1.044}},
      {Alloy::nicr_35_20, {1.029, 1.061, 1.090, 1.115, 1.139, 1.157, 1.173, 1.188, 1.219}},
      {Alloy::fecr_13_4, {1.005, 1.014, 1.028, 1.044, 1.064, 1.090, 1.120, 1.132, 1.150}},
  }};
  for (const Printed& printed : table) {
    EXPECT_NEAR(resistance_factor(printed.alloy, Temperature::from_celsius(20)).low, 1.0, 1e-12);
    for (std::size_t i = 0; i < celsius.size(); ++i)
      EXPECT_NEAR(resistance_factor(printed.alloy, Temperature::from_celsius(celsius[i])).low, printed.factors[i],
                  1e-12)
          << celsius[i];
  }
}

TEST(RatedResistanceOutside, HotAt600DegreesIsLessCold) {
  HeaterRatings ratings = rated(120, 450, Alloy::nicr_80_20);
  ratings.wire_temperature = Temperature::from_celsius(600);
  EXPECT_NEAR(ratings.cold().nominal, 31.434185, 5e-7);
}

// Below 400 W its 20 W govern: 250 W are 225 to 270 W.
TEST(RatedPowerOutside, TwentyWattsAboveBelowFourHundred) {
  const Limits watts = expected(rated(120, 250), power, line_voltage, 120).limits;
  EXPECT_NEAR(watts.lower->value_in_si(), 225.0, 1e-10);
  EXPECT_NEAR(watts.upper->value_in_si(), 270.0, 1e-10);
}

TEST(RatedResistanceOutside, ToleranceOfRatedInput) {
  EXPECT_EQ(usual_tolerance(Power::from_value(20)).above, 0.2);
  EXPECT_EQ(usual_tolerance(Power::from_value(100)).above, 0.1);
  EXPECT_NEAR(usual_tolerance(Power::from_value(250)).above * 250, 20.0, 1e-12);  // 225 W to 270 W
  EXPECT_EQ(usual_tolerance(Power::from_value(250)).below, 0.1);
  EXPECT_EQ(usual_tolerance(Power::from_value(450)).above, 0.05);
}

// EN 50699 and EN 50678 (before them DIN VDE 0701-0702), 500 V DC.
TEST(InsulationOutside, LeastOfTheEarthClasses) {
  EXPECT_EQ(least_insulation(EarthClass::one, Power::from_value(2000)).value(), 1e6);
  EXPECT_EQ(least_insulation(EarthClass::one, Power::from_value(5200)).value(), 0.3e6);
  EXPECT_EQ(least_insulation(EarthClass::two, Power::from_value(5200)).value(), 2e6);
  EXPECT_EQ(least_insulation(EarthClass::three, std::nullopt).value(), 0.25e6);
}

// IEC 60335-1, 13.2 and 16.2, as quoted of the text of 2001 with amendment 1 of 2004: a stationary heating appliance of
// class I may leak 0.75 mA, or 0.75 mA a kilowatt, at most 5 mA: 1.35 mA at 1.8 kW. Insulation that leaks 0.75 mA has
// 160 kohm at 120 V and 306 666.67 ohm at 230 V; 230 V over 1 Mohm leak 0.23 mA, 120 V over 50 kohm 2.4 mA (Ohm).
TEST(LeakageOutside, LimitsOfNewAppliances) {
  const auto class_1 = [](double watt) { return most_leakage(EarthClass::one, Power::from_value(watt)).value(); };
  EXPECT_NEAR(class_1(1800), 1.35e-3, 1e-15);
  EXPECT_NEAR(class_1(450), 0.75e-3, 1e-15);
  EXPECT_NEAR(class_1(9000), 5e-3, 1e-15);
  EXPECT_NEAR(most_leakage(EarthClass::unstated, std::nullopt).value(), 0.75e-3, 1e-15);
  EXPECT_NEAR(most_leakage(EarthClass::two, std::nullopt).value(), 0.25e-3, 1e-15);
  EXPECT_NEAR(most_leakage(EarthClass::three, std::nullopt).value(), 0.5e-3, 1e-15);
}

TEST(LeakageOutside, InsulationAndWhatItLeaks) {
  const Current leak = most_leakage(EarthClass::one, Power::from_value(450));
  EXPECT_NEAR(insulation_that_leaks(Voltage::from_value(120), leak).value(), 160e3, 1e-9);
  EXPECT_NEAR(insulation_that_leaks(Voltage::from_value(230), leak).value(), 306666.67, 0.005);
  EXPECT_NEAR(leakage_through(Voltage::from_value(230), Resistance::from_value(1e6)).value(), 0.23e-3, 1e-15);
  EXPECT_NEAR(leakage_through(Voltage::from_value(120), Resistance::from_value(50e3)).value(), 2.4e-3, 1e-15);
}

// P = V²/R: 118.2 V with a standard uncertainty of 0.6 V across 32.1 ohm with 0.285 ohm make 435.241 W with 5.870 W
// (GUM 5.1; numpy).
TEST(PowerByOhmsOutside, VoltsSquaredByOhmsWithTheirDoubt) {
  Estimate line(118.2);
  line.add_term(0, 0.6);
  Estimate ohms(32.1);
  ohms.add_term(1, 0.285);
  const Estimate power = power_by_ohms(line, ohms);
  EXPECT_NEAR(power.value(), 435.241, 5e-4);
  EXPECT_NEAR(power.standard_uncertainty(), 5.870, 5e-4);
  EXPECT_NEAR(power.standard_uncertainty() / power.value(), 0.013487, 5e-7);
}

}  // namespace
}  // namespace ohmwright::heater
