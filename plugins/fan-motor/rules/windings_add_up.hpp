#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_windings_add_up();
void judge_windings_add_up(const Scene& scene);

/// The three readings add up, but not under the names that their terminals were given.
bool are_named_wrongly(const Scene& scene);

}  // namespace ohmwright::fan_motor
