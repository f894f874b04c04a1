#include <cmath>

#include <ohmwright/thermal/moist_air.hpp>

namespace ohmwright::thermal {

namespace {

constexpr double zero_celsius_kelvin = 273.15;
constexpr double gas_constant_of_vapour = 461.523;   ///< [J/(kg K)]
constexpr double gas_constant_of_dry_air = 287.055;  ///< [J/(kg K)]
constexpr double vapour_to_dry_air = 0.621945;       ///< of their molar masses

struct MagnusForm {
  double a = 17.62;
  double b = 243.12;
  double at_zero_pascal = 611.2;
};

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
  return kelvin < zero_celsius_kelvin ? saturation_pressure_over_ice(kelvin) : saturation_pressure_over_water(kelvin);
}

double magnus_pressure_over_water(double kelvin) {
  const MagnusForm form;
  const double celsius = kelvin - zero_celsius_kelvin;
  return form.at_zero_pascal * std::exp(form.a * celsius / (form.b + celsius));
}

double dew_point(double kelvin, double relative_humidity) {
  const MagnusForm form;
  const double logarithm = std::log(relative_humidity * magnus_pressure_over_water(kelvin) / form.at_zero_pascal);
  return zero_celsius_kelvin + form.b * logarithm / (form.a - logarithm);
}

double humidity_ratio(double vapour_pascal, double pascal) {
  return vapour_to_dry_air * vapour_pascal / (pascal - vapour_pascal);
}

double vapour_density(double vapour_pascal, double kelvin) { return vapour_pascal / (gas_constant_of_vapour * kelvin); }

double frost_of_opening(const DoorAir& air) {
  const double outside = vapour_density(air.room_humidity * saturation_pressure(air.room_kelvin), air.room_kelvin);
  const double inside = vapour_density(saturation_pressure(air.cold_kelvin), air.cold_kelvin);
  return air.volume_cubic_metre * air.changed_share * (outside - inside);
}

double frost_of_opening_by_dry_air(const DoorAir& air) {
  constexpr double pascal = 101325.0;
  const double inside = saturation_pressure(air.cold_kelvin);
  const double dry_density = (pascal - inside) / (gas_constant_of_dry_air * air.cold_kelvin);
  const double more = humidity_ratio(air.room_humidity * saturation_pressure(air.room_kelvin)) - humidity_ratio(inside);
  return air.volume_cubic_metre * air.changed_share * dry_density * more;
}

}  // namespace ohmwright::thermal
