#pragma once

#include <cassert>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include <ohmwright/component/electrical.hpp>
#include <ohmwright/quantity/observed.hpp>

namespace ohmwright::locate {

/// Sources of errors that readings share, as `SharedError::source`.
namespace source {
inline constexpr std::uint64_t leads = 1;
inline constexpr std::uint64_t gain = 2;  ///< and the probe's number
inline constexpr std::uint64_t supply = 8;
inline constexpr std::uint64_t elements = 16;
inline constexpr std::uint64_t most_elements = 1024;  ///< of one part

/// An element is one thing to an ohmmeter and another to the line.
inline std::uint64_t of_element(std::size_t part, std::size_t element, Excitation excitation) {
  const auto of_part = static_cast<std::uint64_t>(part) * most_elements;
  assert(element < most_elements);
  return elements + 2 * (of_part + static_cast<std::uint64_t>(element)) +
         (excitation == Excitation::ohmmeter ? 0U : 1U);
}

/// Where a wire is cut in two whose first piece is that element: a source that no element has.
inline std::uint64_t of_cut(std::size_t part, std::size_t first_piece) {
  return of_element(part, most_elements - 1 - first_piece, Excitation::ohmmeter);
}

/// Added to an element's source where another temperature makes it another error: millikelvins, above all elements.
inline std::uint64_t of_temperature(const StatedValue& temperature) {
  constexpr std::uint64_t above_elements = std::uint64_t{1} << 32U;
  return above_elements * static_cast<std::uint64_t>(std::lround(1e3 * temperature.value.value_in_si()));
}

/// Whether a set-up took: above all others.
inline constexpr std::uint64_t set_ups = std::uint64_t{1} << 63U;
inline std::uint64_t of_set_up(std::size_t set_up) { return set_ups + static_cast<std::uint64_t>(set_up); }
}  // namespace source

}  // namespace ohmwright::locate
