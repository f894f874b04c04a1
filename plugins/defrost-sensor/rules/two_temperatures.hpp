#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// The slope between two readings at different temperatures: drift, another curve, a series resistance or a leakage?
RuleDescriptor describe_two_temperatures();
void judge_two_temperatures(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
