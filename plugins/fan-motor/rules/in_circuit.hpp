#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_in_circuit();
void judge_in_circuit(const Scene& scene);

/// What it left open, for the advice (component/in_circuit.hpp).
bool asks_to_prove_dead_and_swap(const Scene& scene);
bool asks_to_read_alone(const Scene& scene);

/// It reads open in circuit, and a protector that opened in the heat explains that as well.
bool may_be_its_protector_in_circuit(const Scene& scene);

}  // namespace ohmwright::fan_motor
