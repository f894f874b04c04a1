#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_drop();

/// The volts across the closed contact under load, against what its resistance, or its solid-state switch, may drop.
/// Whether the drop read under load is surely within its limit: that clears the contact, whatever its ohms.
bool drops_little(const Scene& scene);
void judge_drop(const Scene& scene);

}  // namespace ohmwright::defrost_control
