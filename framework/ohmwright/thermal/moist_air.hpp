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

/// The Magnus form over water [Pa], as the World Meteorological Organization's guide gives it (from memory): 611.2 Pa ·
/// exp(17.62 t/(243.12 + t)), t in °C.
double magnus_pressure_over_water(double kelvin);

/// Dew point [K] at a temperature and relative humidity (0…1), the Magnus form solved for t.
double dew_point(double kelvin, double relative_humidity);

/// Kilograms of vapour a kilogram of dry air: 0.621945·p/(P − p) (ideal gas; ASHRAE).
double humidity_ratio(double vapour_pascal, double pascal = 101325.0);

/// Density of vapour [kg/m³]: p/(461.523·T) (ideal gas).
double vapour_density(double vapour_pascal, double kelvin);

/// Air beside an opened door.
struct DoorAir {
  double room_kelvin = 298.15;
  double room_humidity = 0.6;  ///< 0…1
  double cold_kelvin = 255.15;
  double volume_cubic_metre = 0.15;
  double changed_share = 0.5;  ///< of the cold air, at one opening
};

/// Vapour that comes in at one opening [kg]: the difference of both air's vapour densities times the volume changed.
/// The cold air is taken as saturated over ice.
double frost_of_opening(const DoorAir& air);

/// The same by the dry air that the cold air's volume holds: W differs, m = V·share·ρ_dry·ΔW.
double frost_of_opening_by_dry_air(const DoorAir& air);

}  // namespace ohmwright::thermal
