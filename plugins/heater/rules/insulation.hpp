#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_insulation();
void judge_insulation(const Scene& scene);

/// Dried it insulates, and wet it leaked.
bool leaks_only_when_wet(const Scene& scene);

/// Asks whether the leak that condemns it was wet, where nobody said.
void advise_if_it_was_wet(const Scene& scene);

/// It leaked wet, and its wet test since had too few volts to lift that: asks for one with more.
void advise_on_weak_wet_test(const Scene& scene);

}  // namespace ohmwright::heater
