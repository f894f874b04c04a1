#pragma once

#include "rules/scene.hpp"

namespace ohmwright::kind_file {

/// Judges a rule on limits: readings of its measurand, moved to the reference of its condition and fused, against the
/// limits there. Adds one finding.
void judge_limits(const Scene& scene, std::uint16_t rule);

}  // namespace ohmwright::kind_file
