#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::wiring {

RuleDescriptor describe_insulation();
void judge_insulation(const Scene& scene);

}  // namespace ohmwright::wiring
