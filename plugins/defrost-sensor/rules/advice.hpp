#pragma once

#include <vector>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// The texts of all advice, in the order of `AdviceIndex`.
std::vector<AdviceDescriptor> describe_advice();

/// Adds what to do next, read off what the rules found: what would decide an undecided, computed where it can be.
void advise(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
