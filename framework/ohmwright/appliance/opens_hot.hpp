#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include <ohmwright/component/electrical.hpp>

namespace ohmwright {

/// The element of a fault that is whole to an ohmmeter and open under power, where a good part's is not: it opens once
/// it is hot, and so only where the supply heats it. Nothing where the fault does no such thing.
///
/// `good` and `powered` under power, `cold` to an ohmmeter; the latter two with the fault.
std::optional<std::size_t> opening_element(std::span<const Element> good, std::span<const Element> cold,
                                           std::span<const Element> powered);

/// Of the supply's volts, so much across it heats it: less warms it by less than a hundredth of what it is made for.
inline constexpr double least_share_that_heats = 0.1;

}  // namespace ohmwright
