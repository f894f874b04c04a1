#pragma once

#include <optional>

#include <ohmwright/component/kind.hpp>

#include "part/heater_ratings.hpp"

namespace ohmwright::heater {

/// What a good heater reads: its cold ohms at a temperature, and what it draws at a line voltage up to a quarter from
/// its rated one, where P = Pr·(V/Vr)² holds.
std::optional<Expectation> expected_reading(const HeaterRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation);

}  // namespace ohmwright::heater
