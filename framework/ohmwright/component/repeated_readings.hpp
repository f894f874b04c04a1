#pragma once

#include <cstddef>
#include <optional>

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

/// Repeats of which not all can hold: something was changed between them, or other points were read.
struct FarApart {
  std::size_t count = 2;
  double lowest = 0.0;   ///< SI; of two what was shown, of more no repeat was lower
  double highest = 0.0;  ///< SI; of two what was shown, of more no repeat was higher

  /// The one that is farther from 0, with its sign.
  double largest() const { return -lowest > highest ? lowest : highest; }
};

/// Two repeats of volts that have opposite signs, or lie farther apart than a tenth of the larger (common practice, no
/// source: the public supply moves by less), or more of them that jump. Their mean was read by nobody. Empty: they
/// agree, or it was read once.
OHMWRIGHT_CORE_API std::optional<FarApart> far_apart(const Evidence& evidence, const PreparedReading& reading);

/// Whether they jump by more than the meter's own last digits do: near zero ohms those alone scatter widely.
inline bool repeats_jump_past_digits(const Evidence& evidence, const PreparedReading& reading) {
  const double shown = reading.displayed < 0.0 ? -reading.displayed : reading.displayed;
  return repeats_jump(evidence, reading) &&
         relative_scatter(evidence, reading) * shown > 2.0 * reading.meter_half_width;
}

}  // namespace ohmwright
