#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_supply_without_current();
void judge_supply_without_current(const Scene& scene);

}  // namespace ohmwright::heater
