#pragma once

#include <array>

namespace ohmwright::thermal {

/// Heats and couplings of a freezer of about 200 litres; of our own making, in the range of handbooks (assumed).
struct ApplianceLumps {
  double coil_joule_per_kelvin = 1800.0;
  double air_joule_per_kelvin = 2500.0;    ///< with the liner's surface
  double cabinet_joule_per_kelvin = 45e3;  ///< what stands in it
  double wall_watt_per_kelvin = 1.1;       ///< room to air
  double cabinet_watt_per_kelvin = 8.0;    ///< air to contents
  double fan_watt_per_kelvin = 18.0;       ///< air to a clear coil, with the fan
  double still_watt_per_kelvin = 2.5;      ///< without it, for small differences
  /// Coil above air at which still air and radiation carry twice that a kelvin.
  double still_doubling_kelvin = 30.0;
  double ice_joule_per_kilogram_kelvin = 2090.0;  ///< of frost (handbooks, from memory)
  double half_blocked_kilogram = 1.5;             ///< frost that halves the air's way
  double evaporator_watt_per_kelvin = 24.0;       ///< coil to refrigerant
  double refrigerant_kelvin = 240.15;
  double room_kelvin = 296.15;
  double settling_second = 300.0;  ///< in which moist air leaves its water on the coil
};

/// What is switched on, and what is held constant during a step.
struct ApplianceDrive {
  double heater_watt = 0.0;
  double fan_watt = 0.0;       ///< its heat goes into the air; 0: it stands
  double cooling_share = 0.0;  ///< of the evaporator's full coupling; 0: the compressor stands
  double moisture_kilogram_per_second = 0.0;
  double open_watt_per_kelvin = 0.0;  ///< a door that stands open: room to air
};

/// The state of all lumps, and the heat that each way has carried so far: temperatures and energies are integrated
/// together, so that the balance closes to rounding.
class ApplianceModel {
 public:
  explicit ApplianceModel(const ApplianceLumps& lumps = {});

  /// Integrates over `second` (Runge–Kutta 4 of Boost.odeint; steps of some seconds), then lets melted frost drain.
  void step(const ApplianceDrive& drive, double second);
  /// Warm moist air in place of a share of the cold: heat and vapour at once.
  void open_door(double air_share, double vapour_kilogram);

  double coil_kelvin() const;
  double air_kelvin() const { return state_[air]; }
  double cabinet_kelvin() const { return state_[cabinet]; }
  double frost_kilogram() const { return state_[frost]; }
  double vapour_kilogram() const { return state_[vapour]; }      ///< in the air, not yet settled
  double drained_kilogram() const { return drained_kilogram_; }  ///< melted and gone, since the start
  /// Frost on the coil at the coil's temperature; energies count from here.
  void set_frost(double kilogram);
  /// A coil below the melting point, with the frost on it; energies count from here.
  void set_coil_kelvin(double kelvin);

  /// Stored heat [J] minus what came in and went out since the start: 0 but for rounding.
  double energy_residual_joule() const;
  /// All heat that came in since the start [J], to hold the residual against.
  double energy_in_joule() const;

 private:
  enum Place : std::size_t {
    enthalpy,
    air,
    cabinet,
    frost,
    vapour,
    heated,
    evaporated,
    leaked,
    latent,
    fanned,
    places
  };
  using State = std::array<double, places>;

  double coil_kelvin_of(const State& state) const;
  double stored_joule() const;
  void drain();

  ApplianceLumps lumps_;
  State state_{};
  double drained_kilogram_ = 0.0;
  double doors_joule_ = 0.0;
  double stored_at_start_ = 0.0;
};

}  // namespace ohmwright::thermal
