// One coil with frost that a heater clears, through the model of the whole appliance: its air held at -18 °C, no fan.
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/thermal/appliance_model.hpp>

namespace ohmwright::thermal {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

/// C 3000 J/K, UA 4 W/K to air of -18 °C that nothing warms; frost without heat of its own.
ApplianceLumps coil_alone(double still_watt_per_kelvin = 4.0) {
  ApplianceLumps lumps;
  lumps.coil_joule_per_kelvin = 3000.0;
  lumps.still_watt_per_kelvin = still_watt_per_kelvin;
  lumps.still_doubling_kelvin = never;
  lumps.ice_joule_per_kilogram_kelvin = 0.0;
  lumps.air_joule_per_kelvin = 1e15;
  lumps.wall_watt_per_kelvin = 0.0;
  lumps.cabinet_watt_per_kelvin = 0.0;
  return lumps;
}

struct Spans {
  double warming_second = 0.0;
  double melting_second = 0.0;
  double rising_second = 0.0;
  double total_second() const { return warming_second + melting_second + rising_second; }
};

/// From -20 to +10 °C, each passage drawn straight within a step of a hundredth of a second.
Spans cleared(const ApplianceLumps& lumps, double kilogram, double heater_watt = 270.0) {
  constexpr double step_second = 0.01;
  constexpr double melting = 273.15;
  constexpr double end = 283.15;
  ApplianceModel model(lumps);
  model.set_frost(kilogram);
  model.set_coil_kelvin(253.15);
  ApplianceDrive drive;
  drive.heater_watt = heater_watt;
  Spans spans;
  double second = 0.0;
  const auto run_to = [&](double kelvin) {
    double before = model.coil_kelvin();
    while (model.coil_kelvin() < kelvin) {
      before = model.coil_kelvin();
      model.step(drive, step_second);
      second += step_second;
    }
    return second - step_second * (model.coil_kelvin() - kelvin) / (model.coil_kelvin() - before);
  };
  // Both ends of the melting are drawn on from a kelvin beside it, along the exponential of a coil without frost.
  const double far_kelvin = heater_watt / lumps.still_watt_per_kelvin - 18.0;
  const auto time_between = [&](double from, double to) {
    return lumps.still_watt_per_kelvin > 0.0 ? std::log((far_kelvin - from) / (far_kelvin - to)) : to - from;
  };
  const double at_minus_one = run_to(melting - 1.0);
  const double at_minus_half = run_to(melting - 0.5);
  spans.warming_second =
      at_minus_half + (at_minus_half - at_minus_one) * time_between(-0.5, 0.0) / time_between(-1.0, -0.5);
  const double at_half = run_to(melting + 0.5);
  const double at_one = run_to(melting + 1.0);
  const double melted = at_half - (at_one - at_half) * time_between(0.0, 0.5) / time_between(0.5, 1.0);
  spans.melting_second = melted - spans.warming_second;
  spans.rising_second = run_to(end) - melted;
  return spans;
}

// Closed form of C dT/dt = P - UA(T - Ta) with a plateau at 0 °C, worked by independent programs in 30 to 40 digits and
// by an ODE solver; the last leg also by ngspice (169.254). C 3000 J/K, UA 4 W/K, Ta -18 °C, P 270 W, 0.4 kg of frost
// without heat of its own, -20 to +10 °C, latent heat 333.55 kJ/kg.
TEST(CoilDefrost, TakesTheTimesOfTheWorkedCase) {
  const Spans spans = cleared(coil_alone(), 0.4);
  EXPECT_NEAR(spans.warming_second, 254.515562, 254.515562e-6);
  EXPECT_NEAR(spans.melting_second, 673.838384, 673.838384e-6);
  EXPECT_NEAR(spans.rising_second, 169.253998, 3.0 * 169.253998e-6);  // both its ends are drawn on
  EXPECT_NEAR(spans.total_second(), 1097.607944, 1097.607944e-6);
}

// Table worked by the same independent programs: frost [kg], total [s].
TEST(CoilDefrost, TakesLongerWithMoreFrost) {
  struct Row {
    double kilogram, total_second;
  };
  for (const Row& row : {Row{0.05, 507.999359}, Row{0.1, 592.229157}, Row{0.2, 760.688752}, Row{0.8, 1771.446328},
                         Row{1.2, 2445.284712}})
    EXPECT_NEAR(cleared(coil_alone(), row.kilogram).total_second(), row.total_second, 1e-6 * row.total_second)
        << row.kilogram;
}

// The same case: 296.354145 kJ in = 90 in the coil + 133.42 melting + 72.934145 lost (independent programs).
TEST(CoilDefrost, ClosesItsEnergyAsTheWorkedCaseDoes) {
  ApplianceModel model(coil_alone());
  model.set_frost(0.4);
  model.set_coil_kelvin(253.15);
  ApplianceDrive drive;
  drive.heater_watt = 270.0;
  const double start = model.coil_kelvin();
  model.step(drive, 1097.607944);
  EXPECT_NEAR(model.coil_kelvin(), 283.15, 2e-3);  // steps of five seconds across the melting point
  EXPECT_NEAR(model.energy_in_joule(), 296354.145, 296354.145e-6);
  EXPECT_NEAR(3000.0 * (model.coil_kelvin() - start), 90000.0, 6.0);
  EXPECT_NEAR(model.drained_kilogram() * cycles::fusion_joule_per_kilogram, 133420.0, 133420.0e-6);
}

// Heat balance by hand: 0.5 kg take 166.775 kJ to melt; of 450 W 60 % melt: 617.6852 s. Nothing is lost here.
TEST(CoilDefrost, MeltsHalfAKilogram) {
  const Spans spans = cleared(coil_alone(0.0), 0.5, 0.6 * 450.0);
  EXPECT_NEAR(spans.melting_second, 617.6852, 617.6852e-6);
}

}  // namespace
}  // namespace ohmwright::thermal
