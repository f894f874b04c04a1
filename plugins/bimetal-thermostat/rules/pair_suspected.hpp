#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Thermostat and link in series behind two wires: open when cold leaves both suspected.
RuleDescriptor describe_pair_suspected();
void judge_pair_suspected(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
