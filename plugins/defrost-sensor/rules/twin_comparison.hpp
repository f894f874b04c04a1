#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// The part against a twin at the same temperature, where no ratings are known.
RuleDescriptor describe_twin_comparison();
void judge_twin_comparison(const Scene& scene);

/// Whether that rule found part and twin too far apart for both to be good.
bool twins_lie_far_apart(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
