#pragma once

#include <cstdint>
#include <vector>

#include <ohmwright/cycles/search/level_scan.hpp>

namespace ohmwright::cycles {

/// Where the sensor sits.
enum class SensorPlace : std::uint8_t { coil, cabinet };

/// A rise of a temperature that the compressor's cycles do not explain.
struct Excursion {
  std::size_t onset = 0;  ///< sample at which the rise begins
  std::size_t peak = 0;
  std::size_t heat_end = 0;   ///< last sample that is as warm as the peak, but for noise
  std::size_t end = 0;        ///< sample at which it is back below the threshold
  double onset_second = 0.0;  ///< where the steep part of the rise, drawn back, meets what was before
  double onset_kelvin = 0.0;
  double peak_kelvin = 0.0;
  bool is_cut = false;
  double score = 0.0;
};

struct ExcursionSearch {
  std::vector<Excursion> excursions;
  double threshold_kelvin = 0.0;  ///< 0: none was found
  double outside_kelvin = 0.0;    ///< all else stays below it for 98 % of the time
};

/// Looks for defrosts in a temperature alone, as `search_heater` does in the load: each level is tried as a threshold,
/// what rises above it is scored by how far it stands out of the cycles, by its shape, by whether a coil passes the
/// melting point, and by the time between like ones.
ExcursionSearch search_excursions(const Window& window, const std::vector<double>& kelvin, SensorPlace place);

}  // namespace ohmwright::cycles
