#pragma once

#include <optional>

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

/// Whether its wheel turns freely by hand, as far as one of the readings says (`coast`).
std::optional<bool> turns_freely(const Scene& scene);

RuleDescriptor describe_turns_by_hand();
void judge_turns_by_hand(const Scene& scene);

}  // namespace ohmwright::fan_motor
