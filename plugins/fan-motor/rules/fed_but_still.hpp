#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_fed_but_still();
void judge_fed_but_still(const Scene& scene);

}  // namespace ohmwright::fan_motor
