#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_running();
void judge_running(const Scene& scene);

}  // namespace ohmwright::fan_motor
