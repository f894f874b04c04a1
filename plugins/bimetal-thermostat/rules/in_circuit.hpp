#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Readings in circuit: never closed. Not OL does not mean closed, and what is open there is open.
RuleDescriptor describe_in_circuit();
/// Comes after the drop under load, which it asks whether the contact carried its load.
void judge_in_circuit(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
