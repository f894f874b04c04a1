#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// What the control believes of the coil, and how early or late it would end the defrost.
RuleDescriptor describe_end_of_defrost();
void judge_end_of_defrost(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
