#include <cmath>

#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/thermal/moist_air.hpp>

namespace ohmwright::thermal {

namespace {

constexpr double gas_constant_of_dry_air = 287.055;  ///< [J/(kg K)]
constexpr double vapour_to_dry_air = 0.621945;       ///< of their molar masses

}  // namespace

double saturation_pressure_over_ice(double kelvin) {
  const double t = kelvin;
  return std::exp(-5674.5359 / t + 6.3925247 - 9.677843e-3 * t + 6.2215701e-7 * t * t + 2.0747825e-9 * t * t * t -
                  9.484024e-13 * t * t * t * t + 4.1635019 * std::log(t));
}

double saturation_pressure_over_water(double kelvin) {
  const double t = kelvin;
  return std::exp(-5800.2206 / t + 1.3914993 - 4.8640239e-2 * t + 4.1764768e-5 * t * t - 1.4452093e-8 * t * t * t +
                  6.5459673 * std::log(t));
}

double saturation_pressure(double kelvin) {
  return kelvin < cycles::melting_point_kelvin ? saturation_pressure_over_ice(kelvin)
                                               : saturation_pressure_over_water(kelvin);
}

double humidity_ratio(double vapour_pascal, double pascal) {
  return vapour_to_dry_air * vapour_pascal / (pascal - vapour_pascal);
}

double frost_of_opening(const DoorAir& air) {
  constexpr double pascal = 101325.0;
  const double inside = saturation_pressure(air.cold_kelvin);
  const double dry_density = (pascal - inside) / (gas_constant_of_dry_air * air.cold_kelvin);
  const double more = humidity_ratio(air.room_humidity * saturation_pressure(air.room_kelvin)) - humidity_ratio(inside);
  return air.volume_cubic_metre * air.changed_share * dry_density * more;
}

}  // namespace ohmwright::thermal
