#pragma once

#include <vector>

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::wiring {

/// The texts of `AdviceIndex`, in its order.
std::vector<AdviceDescriptor> describe_advice();

/// What to do next, after the rules have spoken.
void advise(const Scene& scene);

}  // namespace ohmwright::wiring
