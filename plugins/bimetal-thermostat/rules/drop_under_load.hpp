#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Voltage across the closed contact while its load runs: what an ohmmeter cannot tell.
RuleDescriptor describe_drop_under_load();
void judge_drop_under_load(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
