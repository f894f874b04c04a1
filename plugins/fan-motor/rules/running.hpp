#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_running();
void judge_running(const Scene& scene);

/// It turns, and slower than a good one does at its volts.
bool turns_too_slowly(const Scene& scene);

/// Faster than its field can turn it, or as fast as a good one whose blades were counted for turns.
bool speed_may_be_misread(const Scene& scene);

}  // namespace ohmwright::fan_motor
