#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_element_resistance();
void judge_element_resistance(const Scene& scene);

}  // namespace ohmwright::heater
