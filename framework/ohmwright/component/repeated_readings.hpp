#pragma once

#include <ohmwright/component/evidence.hpp>

namespace ohmwright {

// Repeats of one reading, judged alike whatever the part.

/// Standard deviation of one reading among its repeats, as a share of the value shown; negative where none were taken
/// or all showed the same digits.
OHMWRIGHT_CORE_API double relative_scatter(const Evidence& evidence, const PreparedReading& reading);

/// No meter and no soak explains a scatter this wide: a contact comes and goes (common practice, no source).
inline constexpr double jumping_scatter = 0.05;

/// Whether its repeats jump, so that their mean is no value of the part.
OHMWRIGHT_CORE_API bool repeats_jump(const Evidence& evidence, const PreparedReading& reading);

/// Whether they jump by more than the meter's own last digits do: near zero ohms those alone scatter widely.
inline bool repeats_jump_past_digits(const Evidence& evidence, const PreparedReading& reading) {
  const double shown = reading.displayed < 0.0 ? -reading.displayed : reading.displayed;
  return repeats_jump(evidence, reading) &&
         relative_scatter(evidence, reading) * shown > 2.0 * reading.meter_half_width;
}

}  // namespace ohmwright
