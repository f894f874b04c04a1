#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// What the sensor says against the measured temperature of the coil it is clipped to.
RuleDescriptor describe_seated_on_coil();
void judge_seated_on_coil(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
