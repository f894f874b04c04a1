#pragma once

#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "part/sensor_ratings.hpp"

namespace ohmwright::defrost_sensor {

/// Whether `candidate` can stand in for `original`, one finding a property: its curve over the span, its value at 25
/// °C, its tolerance, the end of a defrost. The span is the context's, or -30 to 30 °C (common practice, no source), as
/// far as both curves can be evaluated. Null: nothing is known of that part, and nothing can be compared.
std::vector<EquivalenceFinding> compare_sensors(const SensorRatings* original, const SensorRatings* candidate,
                                                const ComparisonContext& context);

}  // namespace ohmwright::defrost_sensor
