#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_insulation();
void judge_insulation(const Scene& scene);

/// Dried it insulates, and wet it leaked.
bool leaks_only_when_wet(const Scene& scene);

/// The leak that condemns it may have been damp: nobody said. Null: it was said.
const PreparedReading* leak_that_may_be_damp(const Scene& scene);

/// It leaked wet, and its wet test since had too few volts to lift that. Null: none.
const PreparedReading* weak_wet_test(const Scene& scene);

}  // namespace ohmwright::heater
