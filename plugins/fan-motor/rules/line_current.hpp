#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_line_current();
void judge_line_current(const Scene& scene);

}  // namespace ohmwright::fan_motor
