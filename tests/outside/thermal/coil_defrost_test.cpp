#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/thermal/coil_defrost.hpp>

namespace ohmwright::thermal {
namespace {

// Closed form of C dT/dt = P - UA(T - Ta) with a plateau at 0 °C, worked by independent programs in 30 to 40 digits and
// by an ODE solver; the last leg also by ngspice (169.254). C 3000 J/K, UA 4 W/K, Ta -18 °C, P 270 W, 0.4 kg of frost
// without heat of its own, -20 to +10 °C, latent heat 333.55 kJ/kg.
TEST(CoilDefrost, TakesTheTimesOfTheWorkedCase) {
  const DefrostBalance balance = defrost_balance({});
  EXPECT_NEAR(balance.warming_second, 254.515562, 254.515562e-6);
  EXPECT_NEAR(balance.melting_second, 673.838384, 673.838384e-6);
  EXPECT_NEAR(balance.rising_second, 169.253998, 169.253998e-6);
  EXPECT_NEAR(balance.total_second(), 1097.607944, 1097.607944e-6);
}

// The same case: 296.354145 kJ in = 90 in the coil + 133.42 melting + 72.934145 lost.
TEST(CoilDefrost, ClosesItsEnergy) {
  const DefrostBalance balance = defrost_balance({});
  EXPECT_NEAR(balance.heater_joule, 296354.145, 296354.145e-6);
  EXPECT_NEAR(balance.coil_joule, 90000.0, 90000.0e-6);
  EXPECT_NEAR(balance.melt_joule, 133420.0, 133420.0e-6);
  EXPECT_NEAR(balance.loss_joule, 72934.145, 72934.145e-6);
  const double residual = balance.heater_joule - balance.coil_joule - balance.melt_joule - balance.loss_joule;
  EXPECT_LT(std::abs(residual), 1e-6 * balance.heater_joule);
}

// Table worked by the same independent programs: frost [kg], plateau [s], total [s], share that melts.
TEST(CoilDefrost, IsMoreEfficientWithMoreFrost) {
  struct Row {
    double kilogram, plateau_second, total_second, efficiency;
  };
  for (const Row& row : {Row{0.05, 84.229798, 507.999359, 0.121592}, Row{0.1, 168.459596, 592.229157, 0.208597},
                         Row{0.2, 336.919192, 760.688752, 0.324803}, Row{0.4, 673.838384, 1097.607944, 0.450205},
                         Row{0.8, 1347.676768, 1771.446328, 0.557904}, Row{1.2, 2021.515152, 2445.284712, 0.606246}}) {
    CoilDefrost coil;
    coil.frost_kilogram = row.kilogram;
    const DefrostBalance balance = defrost_balance(coil);
    EXPECT_NEAR(balance.melting_second, row.plateau_second, 1e-6 * row.plateau_second) << row.kilogram;
    EXPECT_NEAR(balance.total_second(), row.total_second, 1e-6 * row.total_second) << row.kilogram;
    EXPECT_NEAR(balance.efficiency(), row.efficiency, 5e-6 * row.efficiency) << row.kilogram;  // six printed digits
  }
}

// Heat balance by hand: 0.5 kg from -20 to +5 °C, specific heats 2.09 and 4.19 kJ/(kg K): 198.150 kJ, of which
// 166.775 kJ melt. At 450 W of which 60 % melts: 733.8889 s.
TEST(MeltingHeat, OfHalfAKilogram) {
  EXPECT_NEAR(melting_heat(0.5, 253.15, 278.15), 198150.0, 1e-6);
  EXPECT_NEAR(0.5 * fusion_joule_per_kilogram, 166775.0, 1e-6);
  EXPECT_NEAR(melting_heat(0.5, 253.15, 278.15) / (0.6 * 450.0), 733.8889, 733.8889e-6);
  EXPECT_NEAR(0.5 * fusion_joule_per_kilogram / (0.6 * 450.0), 617.6852, 617.6852e-6);
}

TEST(CoilDefrost, RefusesAHeaterThatIsTooWeak) {
  CoilDefrost coil;
  coil.heater_watt = 100.0;
  EXPECT_THROW(defrost_balance(coil), InputError);
}

}  // namespace
}  // namespace ohmwright::thermal
