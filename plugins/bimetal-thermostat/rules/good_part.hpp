#pragma once

#include <span>

#include <ohmwright/uncertainty/estimate.hpp>

#include "part/trip_point.hpp"

namespace ohmwright::bimetal_thermostat {

// What a good part may do at a temperature that is known with a doubt. Between stated limits the most favourable good
// part counts, so that none within them is ever condemned; of a normal spread all good parts count by their share.

/// P(a good part's trip point lies at `temperature` or above) [0…1]: a good part that came from the cold is still
/// closed.
double may_trip_above(const TripPoint& trip, const Estimate& temperature, std::span<const ErrorSource> sources);

/// P(a good part's trip point lies at `temperature` or below) [0…1]: a good part that came from the warm is still open.
double may_trip_below(const TripPoint& trip, const Estimate& temperature, std::span<const ErrorSource> sources);

/// Half-width of a temperature's error limits, taken as rectangular [K].
double half_width_of_temperature(const Estimate& temperature);

/// The mildest thermometer reading at which a good part has surely tripped, the thermometer's half-width and the
/// confidence asked for considered: above its highest trip, below its lowest.
Temperature surely_above(const TripPoint& trip, double half_width_kelvin, double confidence);
Temperature surely_below(const TripPoint& trip, double half_width_kelvin, double confidence);

}  // namespace ohmwright::bimetal_thermostat
