#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::wiring {

RuleDescriptor describe_in_circuit();
void judge_in_circuit(const Scene& scene);

}  // namespace ohmwright::wiring
