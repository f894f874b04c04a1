#pragma once

#include <optional>

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

/// Whether its wheel turns freely by hand, as far as one of the readings says (`coast`).
std::optional<bool> turns_freely(const Scene& scene);

/// Whether something may hold its wheel: flicked it stopped at once, or it was neither flicked nor seen turning as fast
/// as a good one, nor its wheel said to be free. A good motor at whose wheel ice rubs draws too much and turns slowly,
/// so neither condemns one then.
bool may_be_held(const Scene& scene);

RuleDescriptor describe_turns_by_hand();
void judge_turns_by_hand(const Scene& scene);

}  // namespace ohmwright::fan_motor
