#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// Generic classes that a part without ratings may belong to.
RuleDescriptor describe_matching_class();
void judge_matching_class(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
