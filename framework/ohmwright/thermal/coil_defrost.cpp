#include <array>

#include <boost/numeric/odeint.hpp>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/thermal/coil_defrost.hpp>

namespace ohmwright::thermal {

namespace {

constexpr double melting_kelvin = 273.15;

/// Enthalpy [J] from the melting point of ice, and heat lost so far [J].
using CoilState = std::array<double, 2>;

/// One phase: temperature is a straight line of enthalpy within it.
struct Phase {
  double kelvin_at_nought = melting_kelvin;
  double kelvin_per_joule = 0.0;
};

/// Integrates until the enthalpy reaches `target`; gives the time that took.
double integrate_to(const CoilDefrost& coil, const Phase& phase, double target, CoilState& state) {
  namespace odeint = boost::numeric::odeint;
  constexpr double tolerance = 1e-11;
  if (state[0] >= target) return 0.0;
  const auto derivative = [&](const CoilState& at, CoilState& rate, double) {
    const double kelvin = phase.kelvin_at_nought + phase.kelvin_per_joule * at[0];
    rate[1] = coil.loss_watt_per_kelvin * (kelvin - coil.ambient_kelvin);
    rate[0] = coil.heater_watt - rate[1];
  };
  auto stepper = odeint::make_dense_output(tolerance, tolerance, odeint::runge_kutta_dopri5<CoilState>());
  stepper.initialize(state, 0.0, 1.0);
  while (stepper.current_state()[0] < target) stepper.do_step(derivative);
  double before = stepper.previous_time();
  double after = stepper.current_time();
  CoilState between{};
  constexpr int halvings = 60;  // to the last digit of a double
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (before + after);
    stepper.calc_state(middle, between);
    (between[0] < target ? before : after) = middle;
  }
  stepper.calc_state(after, state);
  state[0] = target;
  return after;
}

}  // namespace

double melting_heat(double kilogram, double start_kelvin, double drain_kelvin) {
  return kilogram * (ice_joule_per_kilogram_kelvin * (melting_kelvin - start_kelvin) + fusion_joule_per_kilogram +
                     water_joule_per_kilogram_kelvin * (drain_kelvin - melting_kelvin));
}

DefrostBalance defrost_balance(const CoilDefrost& coil) {
  const double warmest = coil.ambient_kelvin + coil.heater_watt / coil.loss_watt_per_kelvin;
  if (!(warmest > coil.end_kelvin))
    throw InputError("the heater warms the coil up to " + std::to_string(warmest) +
                     " K at most, and the defrost ends at " + std::to_string(coil.end_kelvin) +
                     " K; give it more power or less loss");
  const double frozen = coil.coil_joule_per_kelvin + coil.frost_kilogram * coil.frost_joule_per_kilogram_kelvin;
  const double latent = coil.frost_kilogram * fusion_joule_per_kilogram;
  CoilState state{frozen * (coil.start_kelvin - melting_kelvin), 0.0};
  const double at_start = state[0];
  DefrostBalance balance;
  balance.warming_second = integrate_to(coil, {melting_kelvin, 1.0 / frozen}, 0.0, state);
  balance.melting_second = integrate_to(coil, {melting_kelvin, 0.0}, latent, state);
  const Phase melted{melting_kelvin - latent / coil.coil_joule_per_kelvin, 1.0 / coil.coil_joule_per_kelvin};
  const double at_end = latent + coil.coil_joule_per_kelvin * (coil.end_kelvin - melting_kelvin);
  balance.rising_second = integrate_to(coil, melted, at_end, state);
  balance.heater_joule = coil.heater_watt * balance.total_second();
  balance.melt_joule = latent;
  balance.coil_joule = at_end - latent - at_start;
  balance.loss_joule = state[1];
  return balance;
}

}  // namespace ohmwright::thermal
