#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// The thermal link in the same housing, across its own leads: closed for life, or it opened for a reason.
RuleDescriptor describe_thermal_link();
void judge_thermal_link(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
