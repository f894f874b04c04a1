#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Opening less closing temperature against the stated differential: a thermometer that is off in both drops out.
RuleDescriptor describe_differential();
void judge_differential(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
