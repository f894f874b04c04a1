#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_motor();

/// Whether the timer's motor winding is whole: its ohms, brought to the temperature of its limits.
void judge_motor(const Scene& scene);

}  // namespace ohmwright::defrost_control
