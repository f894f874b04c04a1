#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_capacitor();
void judge_capacitor(const Scene& scene);

/// It has a run capacitor that was not read, or not found good: a weak one makes a good motor slow, and without one it
/// hums and stands still.
bool may_be_its_capacitor(const Scene& scene);

}  // namespace ohmwright::fan_motor
