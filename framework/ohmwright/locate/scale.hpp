#pragma once

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright::locate {

/// Readings are compared on a scale that is linear near zero and logarithmic above it: z = arsinh(x / x0). There a
/// tolerance in percent has one width whatever the value, and 0 has a place.
struct Scale {
  double linear_below = 1.0;  ///< x0 [SI]: what an instrument of a technician tells from zero
  double largest = 1.0;       ///< the largest value that is shown [SI]

  double at(double value_in_si) const;
  /// Standard uncertainty on the scale of a value with that standard uncertainty [SI].
  double uncertainty_at(double value_in_si, double uncertainty_in_si) const;
  /// Probability density on the scale of "anything at all".
  double density_of_anything() const;
};

/// Past this current a breaker trips before anybody reads [A] (common practice, no source).
inline constexpr double breaker_amperes = 60.0;

Scale scale_of(Probe probe);
Dimension dimension_of(Probe probe);

}  // namespace ohmwright::locate
