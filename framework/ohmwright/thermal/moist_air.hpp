#pragma once

namespace ohmwright::thermal {

// Numeric kernel: kelvins and pascals, ratios pure.

/// Saturation pressure of water vapour [Pa] over ice, 173 K to 273.16 K.
/// Source: Hyland and Wexler (1983), coefficients as in ASHRAE Fundamentals 2017, chapter 1.
double saturation_pressure_over_ice(double kelvin);

/// The same over liquid water, 273.15 K to 473 K.
double saturation_pressure_over_water(double kelvin);

/// Over ice below the melting point, over water from there on.
double saturation_pressure(double kelvin);

/// Kilograms of vapour a kilogram of dry air: 0.621945·p/(P − p) (ideal gas; ASHRAE).
double humidity_ratio(double vapour_pascal, double pascal = 101325.0);

/// Air beside an opened door.
struct DoorAir {
  double room_kelvin = 298.15;
  double room_humidity = 0.6;  ///< 0…1
  double cold_kelvin = 255.15;
  double volume_cubic_metre = 0.15;
  double changed_share = 0.5;  ///< of the cold air, at one opening
};

/// Vapour that comes in at one opening [kg] and stays as frost: V·share·ρ_dry·ΔW, the dry air that fills the cold
/// volume once it has cooled, times the difference of both humidity ratios. The cold air is taken as saturated over
/// ice.
double frost_of_opening(const DoorAir& air);

}  // namespace ohmwright::thermal
