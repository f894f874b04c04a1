#include "part/trip_point.hpp"

#include <algorithm>

#include <ohmwright/uncertainty/distribution.hpp>

namespace ohmwright::bimetal_thermostat {

double TripPoint::share_above(Temperature t) const {
  const double above_nominal = (t - nominal).value();
  if (spread == Spread::normal) return normal_probability_below(-above_nominal / standard_deviation());
  return std::clamp(0.5 * (1.0 - above_nominal / allowed.value()), 0.0, 1.0);
}

}  // namespace ohmwright::bimetal_thermostat
