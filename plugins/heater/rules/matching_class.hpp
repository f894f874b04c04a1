#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_matching_class();
void judge_matching_class(const Scene& scene);

}  // namespace ohmwright::heater
