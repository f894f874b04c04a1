#pragma once

#include <vector>

#include <ohmwright/component/electrical.hpp>

#include "part/fan_motor_ratings.hpp"

namespace ohmwright::fan_motor {

/// Elements between the terminals for a fault mode, or `not_found` for a healthy part: the ohms of the winding where an
/// ohmmeter looks, what it draws of the line where there is one. An electronic motor shows an ohmmeter nothing that
/// could be said.
ModelAnswer append_model(const FanMotorRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements);

}  // namespace ohmwright::fan_motor
