#pragma once

#include <optional>

#include <ohmwright/component/kind.hpp>

#include "part/fan_motor_ratings.hpp"

namespace ohmwright::fan_motor {

/// What the winding of a good motor reads at a temperature.
std::optional<Expectation> expected_reading(const FanMotorRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation);

}  // namespace ohmwright::fan_motor
