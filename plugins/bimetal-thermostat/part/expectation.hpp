#pragma once

#include <optional>

#include <ohmwright/component/kind.hpp>

#include "part/thermostat_ratings.hpp"

namespace ohmwright::bimetal_thermostat {

/// What good parts read: of the contact and the link their ohms while closed and the share of them that is closed at a
/// temperature (coming from the cold, from the warm, or, with an unknown history, as often one as the other); of the
/// drop the volts at a current. Nothing where a condition is missing.
std::optional<Expectation> expected_reading(const ThermostatRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation);

}  // namespace ohmwright::bimetal_thermostat
