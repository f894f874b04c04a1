#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_interval();

/// How often a defrost comes, in the hours that it counts.
void judge_interval(const Scene& scene);

}  // namespace ohmwright::defrost_control
