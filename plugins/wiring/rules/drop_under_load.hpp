#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::wiring {

RuleDescriptor describe_drop_under_load();
void judge_drop_under_load(const Scene& scene);

}  // namespace ohmwright::wiring
