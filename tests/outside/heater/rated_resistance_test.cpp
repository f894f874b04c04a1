#include <gtest/gtest.h>

#include "part/alloy.hpp"
#include "part/heater_ratings.hpp"

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

// 450 W, 120 V, +5/-10 %, from the tables of alloy makers: gains of 1.00, 1.03 and 1.16.
TEST(RatedResistanceOutside, TheGainOfTheWireMovesTheLowerLimitOnly) {
  HeaterRatings fecral = rated(120, 450, Alloy::fecral_25_5);
  fecral.wire_temperature = Temperature::from_celsius(600);  // 1.030
  EXPECT_NEAR(fecral.cold().lower, 29.589, 5e-4);
  HeaterRatings cold_wire = rated(120, 450, Alloy::nicr_80_20);
  cold_wire.wire_temperature = Temperature::from_celsius(20);  // 1.00
  EXPECT_NEAR(cold_wire.cold().lower, 30.476, 5e-4);
  EXPECT_NEAR(rated(120, 450, Alloy::unknown_or_iron).cold().lower, 26.273, 5e-4);
  EXPECT_NEAR(rated(120, 450, Alloy::unknown_or_iron).cold().upper, 35.556, 5e-4);
}

TEST(RatedResistanceOutside, FactorsOfTheAlloys) {
  const auto factor = [](Alloy alloy, double celsius) {
    return resistance_factor(alloy, Temperature::from_celsius(celsius)).low;
  };
  EXPECT_NEAR(factor(Alloy::nicr_80_20, 500), 1.026, 1e-12);
  EXPECT_NEAR(factor(Alloy::nicr_80_20, 1000), 1.014, 1e-12);
  EXPECT_NEAR(factor(Alloy::nicr_60_15, 800), 1.078, 1e-12);
  EXPECT_NEAR(factor(Alloy::fecral_25_5, 600), 1.030, 1e-12);
  EXPECT_NEAR(factor(Alloy::nicr_35_20, 400), 1.115, 1e-12);
  EXPECT_NEAR(factor(Alloy::fecr_13_4, 700), 1.120, 1e-12);
  EXPECT_NEAR(factor(Alloy::nicr_80_20, 20), 1.0, 1e-12);
}

TEST(RatedResistanceOutside, HotAt600DegreesIsLessCold) {
  HeaterRatings ratings = rated(120, 450, Alloy::nicr_80_20);
  ratings.wire_temperature = Temperature::from_celsius(600);
  EXPECT_NEAR(ratings.cold().nominal, 31.434185, 5e-7);
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

}  // namespace
}  // namespace ohmwright::heater
