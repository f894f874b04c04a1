#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Where it closed as it cooled, against its ratings; where these state the differential alone, how far below its
/// opening that was.
RuleDescriptor describe_closing_point();
void judge_closing_point(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
