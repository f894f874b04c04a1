#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_not_by_ohms();
void judge_not_by_ohms(const Scene& scene);

}  // namespace ohmwright::fan_motor
