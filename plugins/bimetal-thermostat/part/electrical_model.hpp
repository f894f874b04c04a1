#pragma once

#include <vector>

#include <ohmwright/component/electrical.hpp>

#include "part/thermostat_ratings.hpp"

namespace ohmwright::bimetal_thermostat {

/// Appends what lies between the terminals for a fault mode, or `not_found` for a healthy part: the contact, closed or
/// open by temperature and history, and the thermal link where the ratings name one.
///
/// Between the two trip points a part that warms is still closed and one that cools still open; with an unknown history
/// it is taken as one that cools, since that is how a part from a bench or a warm room gets there. Welded and stuck
/// open need nothing; all else needs ratings, and a contact that moves needs a temperature: without them nothing is
/// appended. How far a fault goes is assumed, with a wide tolerance.
void append_model(const ThermostatRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                  std::vector<Element>& elements);

/// Whether a part with these trip points is closed at `t`.
bool is_closed_at(Temperature opening, Temperature closing, Temperature t, std::uint16_t history_value);

/// Ohms of a good closed contact where the ratings state no more: 0.2 ohm at most (common practice, no source).
inline constexpr double usual_contact_limit_ohms = 0.2;

}  // namespace ohmwright::bimetal_thermostat
