#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_capacitor();
void judge_capacitor(const Scene& scene);

}  // namespace ohmwright::fan_motor
