#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_supply_volts();
/// Too many volts: then what it draws, and whether and how it turns, judges nothing.
void judge_supply_volts(const Scene& scene);

/// Whether its plug, made for extra-low voltage, has mains on it.
bool has_mains_on_low_voltage(const Scene& scene);

}  // namespace ohmwright::fan_motor
