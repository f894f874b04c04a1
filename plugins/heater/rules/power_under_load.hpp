#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_power_under_load();
void judge_power_under_load(const Scene& scene);

}  // namespace ohmwright::heater
