#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_line_current();
void judge_line_current(const Scene& scene);

/// It draws too much, and its run capacitor explains that as well.
bool draws_as_beside_a_bad_capacitor(const Scene& scene);

}  // namespace ohmwright::fan_motor
