#pragma once

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// Shares of the variance of a deviation, by what they come from [0…1].
struct Doubt {
  double temperature = 0.0;
  double meter = 0.0;    ///< with its leads
  double scatter = 0.0;  ///< of repeated readings
  double model = 0.0;
};

/// Where the doubt of the fused deviation comes from.
Doubt doubt_of(const Scene& scene);

/// Half-width of the temperature of a stirred, soaked ice bath [K] (common practice, no source).
inline constexpr double ice_bath_kelvin = 0.2;
/// Accuracy of the better meter that advice speaks of, a good bench or hand-held one [1].
inline constexpr double better_meter_share = 0.003;

/// Whether the part was already read at the ice point.
bool read_at_ice_point(const Scene& scene);

/// Whether the part was read at 0 °C, however well that was known.
bool near_ice_point(const Scene& scene);

/// A room, and how well a soaked thermometer beside the sensor knows it [K] (common practice, no source).
inline constexpr double room_celsius = 25.0;
inline constexpr double room_kelvin = 0.3;

/// Whether the part was already read at about room temperature.
bool read_at_room(const Scene& scene);

/// Chance that a reading at room temperature, thermometer soaked beside the sensor, decides the part [0…1].
double chance_at_room(const Scene& scene);

/// Chance that a reading in stirred ice water with the same meter decides the part [0…1].
double chance_at_ice_point(const Scene& scene);

/// Chance that the same reading with a meter of ±0.3 % decides the part [0…1].
double chance_with_better_meter(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
