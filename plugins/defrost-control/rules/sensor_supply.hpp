#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_sensor_supply();

/// The volts that the board gives to its sensor, at the pulled connector or across a known resistor.
void judge_sensor_supply(const Scene& scene);

}  // namespace ohmwright::defrost_control
