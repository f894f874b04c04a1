#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::wiring {

RuleDescriptor describe_open();
void judge_open(const Scene& scene);

}  // namespace ohmwright::wiring
