#pragma once

#include <optional>

#include <ohmwright/component/kind.hpp>

#include "part/control_ratings.hpp"

namespace ohmwright::defrost_control {

/// What a good control reads; nothing where ratings or situation do not say.
std::optional<Expectation> expected_reading(const ControlRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation);

}  // namespace ohmwright::defrost_control
