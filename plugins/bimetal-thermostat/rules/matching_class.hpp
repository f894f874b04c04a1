#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Generic classes that a part without ratings may belong to, by where it opened.
RuleDescriptor describe_matching_class();
void judge_matching_class(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
