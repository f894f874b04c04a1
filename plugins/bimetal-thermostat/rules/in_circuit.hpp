#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Readings in circuit: never closed. Not OL does not mean closed, and what is open there is open.
RuleDescriptor describe_in_circuit();
void judge_in_circuit(const Scene& scene);

/// Whether the points of a reading in circuit were shown to carry no voltage and read alike with the probes swapped.
bool is_proved(const Scene& scene, const PreparedReading& reading);

}  // namespace ohmwright::bimetal_thermostat
