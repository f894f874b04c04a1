#pragma once

#include <vector>

#include <ohmwright/component/electrical.hpp>

#include "part/thermostat_ratings.hpp"

namespace ohmwright::bimetal_thermostat {

/// Appends what lies between the terminals for a fault mode, or `not_found` for a healthy part: the contact, closed or
/// open by temperature and history, and the thermal link where the ratings name one.
///
/// The contact is closed with the probability that `share_closed_at` gives. Welded and stuck open need nothing; all
/// else needs ratings, and a contact that moves needs a temperature: without them the answer is unknown. How far a
/// fault goes is assumed, with a wide tolerance.
ModelAnswer append_model(const ThermostatRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements);

/// Share of good parts that are closed at `t` [0…1]: of one that warmed up to there by where they open, of one that
/// cooled down by where they close, halfway between both where its history is not known.
double share_closed_at(const ThermostatRatings& ratings, Temperature t, const Situation& situation);

/// Ohms of a good closed contact where the ratings state no more: 0.2 ohm at most (common practice, no source).
inline constexpr double usual_contact_limit_ohms = 0.2;

}  // namespace ohmwright::bimetal_thermostat
