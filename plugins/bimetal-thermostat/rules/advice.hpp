#pragma once

#include <vector>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// The texts of all advice, in the order of `AdviceIndex`.
std::vector<AdviceDescriptor> describe_advice();

/// Adds what to do next, read off what the rules found: the temperature that would decide, computed where it can be.
void advise(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
