#pragma once

#include <ohmwright/component/fitting.hpp>

namespace ohmwright::bimetal_thermostat {

/// Trip points with their uncertainty from rows of temperature and observed state, in the order of time: last state
/// before, first after; several cycles by their intersection, or, where that is empty, by the span of all (and a remark
/// says so). The tolerance written into the ratings is what is known of this one part, not a tolerance between parts.
Fitting fit_trip_points(const FitRequest& request);

}  // namespace ohmwright::bimetal_thermostat
