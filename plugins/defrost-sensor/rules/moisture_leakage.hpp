#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// Wet against dry: a leakage that a bench test misses.
RuleDescriptor describe_moisture_leakage();
void judge_moisture_leakage(const Scene& scene);

/// Whether it reads higher wet than dry, beyond what a good part may do: water cannot do that, so one of the readings
/// is wrong. Not where both lie above the limits, since each of them condemns the part then.
bool reads_higher_when_wet(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
