#pragma once

#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "part/thermostat_ratings.hpp"

namespace ohmwright::bimetal_thermostat {

/// Whether a part of the ratings `candidate` can stand in for one of the ratings `original` (null: nothing known): trip
/// points within the original's limits, current, voltage, leads, thermal link, type of action. A load current in the
/// context counts for the current that has to be carried.
std::vector<EquivalenceFinding> compare_ratings(const ThermostatRatings* original, const ThermostatRatings* candidate,
                                                const ComparisonContext& context);

}  // namespace ohmwright::bimetal_thermostat
