#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// A reading within the leads' own resistance: a short, where the part was read alone.
RuleDescriptor describe_short();
void judge_short(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
