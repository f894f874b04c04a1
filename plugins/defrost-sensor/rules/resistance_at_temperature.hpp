#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// The part's own resistance against its curve and tolerance at the temperature it was read at, judged in ln R.
RuleDescriptor describe_resistance_at_temperature();
void judge_resistance_at_temperature(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
