#pragma once

#include <optional>
#include <vector>

#include <ohmwright/component/electrical.hpp>

#include "part/control_ratings.hpp"

namespace ohmwright::defrost_control {

/// Share of its time that a control is in run, taken where its position is not known (assumed): a defrost of some 20
/// minutes every 10 hours.
inline constexpr double usual_run_share = 0.97;

/// Least ohms of any closed contact, so that no network gets a conductance without end (assumed).
inline constexpr double least_contact_ohms = 0.01;

/// Appends what lies between the terminals for a fault mode, or `not_found` for a healthy part: both contacts by the
/// state `position`, a timer's motor, a board's power supply and sensor input.
///
/// A board is at rest while an ohmmeter reads it: its contact to the heater is open whatever its program says, and the
/// run contact as its ratings state. An electronic or unstated power supply shows an ohmmeter nothing that could be
/// predicted; it is left open. Unknown without ratings. How far a fault goes is assumed, with a wide tolerance.
ModelAnswer append_model(const ControlRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements);

/// Share of such controls whose contact to the heater is closed in that situation [0…1]; the one to the compressor is
/// closed in the others.
double share_in_defrost(const Situation& situation);

}  // namespace ohmwright::defrost_control
