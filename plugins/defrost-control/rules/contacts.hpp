#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_contacts();

/// Whether the contacts follow the position: of a cam timer exactly one is closed, of a board the defrost output is on
/// in a defrost and off else.
void judge_contacts(const Scene& scene);

}  // namespace ohmwright::defrost_control
