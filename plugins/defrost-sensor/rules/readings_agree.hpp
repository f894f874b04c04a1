#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// Whether the readings of the part agree with one another.
RuleDescriptor describe_readings_agree();
void judge_readings_agree(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
