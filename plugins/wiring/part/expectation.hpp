#pragma once

#include <optional>

#include <ohmwright/component/kind.hpp>

#include "part/wiring_ratings.hpp"

namespace ohmwright::wiring {

/// What a good one reads: its ohms from end to end, or the volts across it at a load current. At 20 °C and of its rated
/// length where the situation says no other; nothing where the length is not known. The lower limit is 0: thicker
/// copper is no fault.
std::optional<Expectation> expected_reading(const WiringRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation);

}  // namespace ohmwright::wiring
