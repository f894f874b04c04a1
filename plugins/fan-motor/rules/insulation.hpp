#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_insulation();
void judge_insulation(const Scene& scene);

/// Dried it insulates, and wet it leaked.
bool leaks_only_when_wet(const Scene& scene);

/// 500 V were put on its electronics, and it was not seen running since.
bool may_be_destroyed_by_its_test(const Scene& scene);

}  // namespace ohmwright::fan_motor
