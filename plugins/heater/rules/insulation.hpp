#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_insulation();
void judge_insulation(const Scene& scene);

/// Dried it insulates, and wet it leaked.
bool leaks_only_when_wet(const Scene& scene);

}  // namespace ohmwright::heater
