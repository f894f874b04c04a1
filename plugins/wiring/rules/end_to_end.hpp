#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::wiring {

RuleDescriptor describe_end_to_end();
void judge_end_to_end(const Scene& scene);

}  // namespace ohmwright::wiring
