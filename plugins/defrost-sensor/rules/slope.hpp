#pragma once

#include <limits>
#include <optional>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// The coldest and the hottest of the readings of one part.
struct Pair {
  const Deviation& cold;
  const Deviation& hot;
  /// 1/T of the one less that of the other [1/K].
  double inverse_apart() const { return 1.0 / cold.temperature.kelvin() - 1.0 / hot.temperature.kelvin(); }
  /// Beta between the two [K].
  double beta() const {
    return (cold.shown_log() + cold.log_nominal - hot.shown_log() - hot.log_nominal) / inverse_apart();
  }
};

/// Of one or more readings.
Pair farthest_apart(const Deviations& usable);

/// One quantity worked out from each reading: do both give the same, and is it a possible one?
struct Explanation {
  double value = 0.0;                                      ///< from the reading that knows it best
  double apart = std::numeric_limits<double>::infinity();  ///< of the two, in standard uncertainties
  bool possible() const;
};

/// A resistance in series with a good sensor [ohm].
Explanation in_series(const Pair& pair);
/// A conductance beside a good sensor [1/ohm].
Explanation in_parallel(const Pair& pair);

/// What no thermistor does between two temperatures, whatever its curve and whatever single path lies beside it.
enum class ImpossibleSlope {
  stood_still,  ///< the ohms did not follow the thermometer
  no_such_beta,
};

/// Whether the readings contradict each other so: their beta lies outside of all materials', no single path explains
/// it, and they do not condemn the part each by itself on one side. Then one of the temperatures or values is wrong,
/// and which is not known. Nothing for fewer than two readings 5 K apart, or a curve that rises.
std::optional<ImpossibleSlope> impossible_slope(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
