#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Where it opened as it warmed, against its ratings.
RuleDescriptor describe_opening_point();
void judge_opening_point(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
