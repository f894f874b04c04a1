#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::wiring {

RuleDescriptor describe_intermittent();
void judge_intermittent(const Scene& scene);

}  // namespace ohmwright::wiring
