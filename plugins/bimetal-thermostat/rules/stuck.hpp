#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Whether it moves at all, and every time: welded, stuck open, or sticking now and then over several cycles.
RuleDescriptor describe_stuck();
void judge_stuck(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
