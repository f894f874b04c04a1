#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_in_circuit();

/// What readings with everything connected tell: never that a contact is closed.
void judge_in_circuit(const Scene& scene);

/// Whether it left something open that a lead off would tell, for the advice.
bool asks_to_read_alone(const Scene& scene);

}  // namespace ohmwright::defrost_control
