#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// Wet against dry: a leakage that a bench test misses.
RuleDescriptor describe_moisture_leakage();
void judge_moisture_leakage(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
