#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// Whether repeated readings stand still.
RuleDescriptor describe_steady_readings();
void judge_steady_readings(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
