#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_advance();

/// Whether it moves on by itself, and in time.
void judge_advance(const Scene& scene);

}  // namespace ohmwright::defrost_control
