#pragma once

#include <vector>

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

/// The texts of `AdviceIndex`, in its order.
std::vector<AdviceDescriptor> describe_advice();

/// What to do next, after the rules have spoken.
void advise(const Scene& scene);

/// What to do next with one that may be run: how it turns, what it draws, what reaches it.
void advise_on_running(const Scene& scene);

}  // namespace ohmwright::fan_motor
