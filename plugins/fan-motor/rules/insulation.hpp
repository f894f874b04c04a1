#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_insulation();
void judge_insulation(const Scene& scene);

/// Dried it insulates, and wet it leaked.
bool leaks_only_when_wet(const Scene& scene);

/// It reads less to the frame than it must have, or may do so, and nothing read since lifts that.
bool leaks_undecided(const Scene& scene);

/// Asks whether the leak that condemns it was wet, where nobody said.
void advise_if_it_was_wet(const Scene& scene);

/// It leaked wet, and its wet test since had too few volts to lift that: asks for one with more.
void advise_on_weak_wet_test(const Scene& scene);

/// Its electronics were tested as if it had none, and it was not seen running since, nor read by an ohmmeter.
bool may_be_destroyed_by_its_test(const Scene& scene);

}  // namespace ohmwright::fan_motor
