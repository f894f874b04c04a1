#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// A reading past the meter's range: an open sensor, if the range reaches past what a good one can read.
RuleDescriptor describe_open();
void judge_open(const Scene& scene);

/// P(a part within limits reads above the full scale of that range), for a part at its upper limit [0…1]. Without
/// ratings or temperature the highest class at the coldest temperature an appliance has stands for it.
double probability_past_range(const Scene& scene, const PreparedReading& reading);

/// Highest resistance that a good part may have: at its upper limit, at the reading's temperature or the coldest [ohm].
double highest_of_good_part(const Scene& scene, const PreparedReading& reading);

}  // namespace ohmwright::defrost_sensor
