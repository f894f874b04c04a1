#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_windings_add_up();
void judge_windings_add_up(const Scene& scene);

}  // namespace ohmwright::fan_motor
