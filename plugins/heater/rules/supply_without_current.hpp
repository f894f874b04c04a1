#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_supply_without_current();
void judge_supply_without_current(const Scene& scene);

/// Full volts across its own leads, and it draws next to nothing: that condemns it.
bool is_fed_and_cold(const Scene& scene);

}  // namespace ohmwright::heater
