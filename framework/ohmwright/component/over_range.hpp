#pragma once

#include <cstdint>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/reading_questions.hpp>

namespace ohmwright {

/// Readings past the end of the meter's range, as they bear on one part.
struct OverRangeSeen {
  /// Why none counts: that of the last one which would.
  enum class Lost : std::uint8_t { there_was_none, in_circuit, live };

  const PreparedReading* decisive =
      nullptr;                       ///< of the part alone and dead, the one that says most; null: there is none
  Lost lost = Lost::there_was_none;  ///< where none is decisive

  /// Of a rule's texts the one that says so.
  template <class Text>
  Text lost_as(Text there_was_none, Text in_circuit, Text live) const {
    if (lost == Lost::live) return live;
    return lost == Lost::in_circuit ? in_circuit : there_was_none;
  }
};

/// Looks for the reading past the range by which a part is judged open. `is_of_the_part`: which readings are its ohms;
/// `says_more(a, b)`: whether `a` says more of an open part than `b` does.
template <class IsOfThePart, class SaysMore>
OverRangeSeen over_range_seen(const Evidence& evidence, IsOfThePart is_of_the_part, SaysMore says_more) {
  OverRangeSeen seen;
  for (const PreparedReading& reading : evidence.readings()) {
    if (!is_of_the_part(reading) || !shows_more_than_range(reading)) continue;
    if (is_live(reading))
      seen.lost = OverRangeSeen::Lost::live;
    else if (is_in_circuit(reading))
      seen.lost = OverRangeSeen::Lost::in_circuit;
    else if (seen.decisive == nullptr || says_more(reading, *seen.decisive))
      seen.decisive = &reading;
  }
  return seen;
}

/// The wider range says more.
inline bool is_of_a_wider_range(const PreparedReading& a, const PreparedReading& b) {
  return a.range_full_scale > b.range_full_scale;
}

}  // namespace ohmwright
