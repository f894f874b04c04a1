#pragma once

namespace ohmwright::thermal {

/// Latent heat of fusion of water at 0 °C [J/kg]; specific heats of ice and water [J/(kg K)] (handbooks, from memory).
inline constexpr double fusion_joule_per_kilogram = 333.55e3;
inline constexpr double ice_joule_per_kilogram_kelvin = 2090.0;
inline constexpr double water_joule_per_kilogram_kelvin = 4190.0;

/// Heat to melt frost [J]: from `start_kelvin` to the melting point, melted, and drained at `drain_kelvin`.
double melting_heat(double kilogram, double start_kelvin, double drain_kelvin);

/// A coil with frost on it that a heater warms, one temperature for all: C·dT/dt = P − UA·(T − Ta), and at the melting
/// point dm/dt = −(P − UA·(T − Ta))/L while there is frost.
struct CoilDefrost {
  double coil_joule_per_kelvin = 3000.0;
  double loss_watt_per_kelvin = 4.0;
  double ambient_kelvin = 255.15;
  double heater_watt = 270.0;  ///< what reaches the coil
  double frost_kilogram = 0.4;
  double frost_joule_per_kilogram_kelvin = 0.0;  ///< of the frost below the melting point; 0: it has no part in warming
  double start_kelvin = 253.15;                  ///< below the melting point
  double end_kelvin = 283.15;                    ///< above it
};

/// Times and energies of a defrost.
struct DefrostBalance {
  double warming_second = 0.0;  ///< up to the melting point
  double melting_second = 0.0;
  double rising_second = 0.0;  ///< from there to the end
  double heater_joule = 0.0;
  double coil_joule = 0.0;  ///< stored in coil and frost
  double melt_joule = 0.0;
  double loss_joule = 0.0;

  double total_second() const { return warming_second + melting_second + rising_second; }
  /// Share of the heater's energy that melted frost.
  double efficiency() const { return melt_joule / heater_joule; }
};

/// The defrost of that coil, its enthalpy integrated by Boost.odeint (Dormand–Prince 5 with dense output, tolerance
/// 1e-11) from phase to phase. Throws InputError where the heater cannot bring the coil to its end temperature.
DefrostBalance defrost_balance(const CoilDefrost& coil);

}  // namespace ohmwright::thermal
