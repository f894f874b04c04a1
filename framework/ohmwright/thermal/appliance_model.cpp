#include <algorithm>
#include <cmath>

#include <boost/numeric/odeint.hpp>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/thermal/appliance_model.hpp>

namespace ohmwright::thermal {

namespace {

using cycles::fusion_joule_per_kilogram;
using cycles::melting_point_kelvin;

constexpr double cold_start_kelvin = 255.15;
/// Latent heat of sublimation [J/kg], 2834 to 2838 kJ/kg in handbooks (from memory).
constexpr double sublimation_joule_per_kilogram = 2.836e6;

}  // namespace

ApplianceModel::ApplianceModel(const ApplianceLumps& lumps) : lumps_(lumps) {
  state_[air] = cold_start_kelvin;
  state_[cabinet] = cold_start_kelvin;
  state_[enthalpy] = lumps_.coil_joule_per_kelvin * (cold_start_kelvin - melting_point_kelvin);
  stored_at_start_ = stored_joule();
}

/// By enthalpy from ice at the melting point: frozen below it, melting at it, the coil alone above it.
double ApplianceModel::coil_kelvin_of(const State& state) const {
  const double frozen = lumps_.coil_joule_per_kelvin + state[frost] * lumps_.ice_joule_per_kilogram_kelvin;
  if (state[enthalpy] < 0.0) return melting_point_kelvin + state[enthalpy] / frozen;
  const double above = state[enthalpy] - state[frost] * fusion_joule_per_kilogram;
  return melting_point_kelvin + std::max(0.0, above) / lumps_.coil_joule_per_kelvin;
}

double ApplianceModel::coil_kelvin() const { return coil_kelvin_of(state_); }

void ApplianceModel::set_frost(double kilogram) {
  const double kelvin = coil_kelvin();
  state_[frost] = kilogram;
  set_coil_kelvin(kelvin);
}

void ApplianceModel::set_coil_kelvin(double kelvin) {
  state_[enthalpy] = (lumps_.coil_joule_per_kelvin + state_[frost] * lumps_.ice_joule_per_kilogram_kelvin) *
                     (kelvin - melting_point_kelvin);
  stored_at_start_ = stored_joule();
}

void ApplianceModel::step(const ApplianceDrive& drive, double second) {
  const auto derivative = [&](const State& at, State& rate, double) {
    const double coil = coil_kelvin_of(at);
    const double blocked = 1.0 + at[frost] / lumps_.half_blocked_kilogram;
    const double still =
        lumps_.still_watt_per_kelvin * (1.0 + std::max(0.0, coil - at[air]) / lumps_.still_doubling_kelvin);
    const double air_way = drive.fan_watt > 0.0 ? lumps_.fan_watt_per_kelvin / blocked : still;
    const double to_coil = air_way * (at[air] - coil);
    const double to_refrigerant =
        drive.cooling_share * lumps_.evaporator_watt_per_kelvin * std::max(0.0, coil - lumps_.refrigerant_kelvin);
    const double leak = (lumps_.wall_watt_per_kelvin + drive.open_watt_per_kelvin) * (lumps_.room_kelvin - at[air]);
    const double to_cabinet = lumps_.cabinet_watt_per_kelvin * (at[air] - at[cabinet]);
    // Vapour settles on a coil that is colder than ice melts.
    const double settles = coil < melting_point_kelvin ? std::max(0.0, at[vapour]) / lumps_.settling_second : 0.0;
    const double settled_watt = settles * (sublimation_joule_per_kilogram +
                                           lumps_.ice_joule_per_kilogram_kelvin * (coil - melting_point_kelvin));
    rate[enthalpy] = drive.heater_watt + to_coil - to_refrigerant + settled_watt;
    rate[air] = (leak + drive.fan_watt - to_coil - to_cabinet) / lumps_.air_joule_per_kelvin;
    rate[cabinet] = to_cabinet / lumps_.cabinet_joule_per_kelvin;
    rate[frost] = settles;
    rate[vapour] = drive.moisture_kilogram_per_second - settles;
    rate[heated] = drive.heater_watt;
    rate[evaporated] = to_refrigerant;
    rate[leaked] = leak;
    rate[latent] = settled_watt;
    rate[fanned] = drive.fan_watt;
  };
  boost::numeric::odeint::runge_kutta4<State> stepper;
  constexpr double longest_step_second = 5.0;
  const int steps = std::max(1, static_cast<int>(std::ceil(second / longest_step_second)));
  for (int i = 0; i < steps; ++i) {
    stepper.do_step(derivative, state_, 0.0, second / steps);
    drain();
  }
}

void ApplianceModel::drain() {
  if (state_[enthalpy] <= 0.0 || state_[frost] <= 0.0) return;
  const double melted = std::min(state_[frost], state_[enthalpy] / fusion_joule_per_kilogram);
  state_[frost] -= melted;
  state_[enthalpy] -= melted * fusion_joule_per_kilogram;
  drained_kilogram_ += melted;
}

void ApplianceModel::open_door(double air_share, double vapour_kilogram) {
  // The air alone is changed, not the liner: a tenth of that lump.
  constexpr double air_in_lump = 0.1;
  const double rise = air_share * air_in_lump * (lumps_.room_kelvin - state_[air]);
  state_[air] += rise;
  state_[vapour] += vapour_kilogram;
  doors_joule_ += rise * lumps_.air_joule_per_kelvin;
}

double ApplianceModel::stored_joule() const {
  return state_[enthalpy] + lumps_.air_joule_per_kelvin * state_[air] +
         lumps_.cabinet_joule_per_kelvin * state_[cabinet];
}

double ApplianceModel::energy_in_joule() const {
  return state_[heated] + state_[leaked] + state_[latent] + state_[fanned] + doors_joule_;
}

double ApplianceModel::energy_residual_joule() const {
  return stored_joule() - stored_at_start_ - energy_in_joule() + state_[evaporated] +
         drained_kilogram_ * fusion_joule_per_kilogram;
}

}  // namespace ohmwright::thermal
