#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_short();
void judge_short(const Scene& scene);

}  // namespace ohmwright::fan_motor
