#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_output();

/// The volts at the defrost output against the line, in both positions.
void judge_output(const Scene& scene);

}  // namespace ohmwright::defrost_control
