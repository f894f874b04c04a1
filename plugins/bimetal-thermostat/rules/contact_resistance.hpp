#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Ohms across the closed contact. High ohms never condemn: the meter's small current does not clean a film as the load
/// does, and its last digit is as large as the limit. The voltage drop under load decides.
RuleDescriptor describe_contact_resistance();

/// A contact of more than this turns the amperes of a heater into more heat than its housing stands, 16 W at 4 A: it is
/// no part to run a heater through (common practice, no source) [ohm].
inline constexpr double most_ohms_under_load = 1.0;

void judge_contact_resistance(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
