#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Ohms across the closed contact. High ohms never condemn: the meter's small current does not clean a film as the load
/// does, and its last digit is as large as the limit. The voltage drop under load decides.
RuleDescriptor describe_contact_resistance();
void judge_contact_resistance(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
