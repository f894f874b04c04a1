#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_capacitor();
void judge_capacitor(const Scene& scene);

/// It has a run capacitor that was not read, or not found good: a weak one makes a good motor slow, and without one it
/// hums and stands still.
bool may_be_its_capacitor(const Scene& scene);

/// It was read with what lies across it, or may have been, and that leaves it open.
bool is_to_be_read_alone(const Scene& scene);

/// The meter showed OL across it.
bool shows_past_its_range(const Scene& scene);

}  // namespace ohmwright::fan_motor
