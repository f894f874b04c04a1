#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_winding_resistance();
void judge_winding_resistance(const Scene& scene);

}  // namespace ohmwright::fan_motor
