#pragma once

#include "rules/scene.hpp"

namespace ohmwright::kind_file {

/// Judges a rule on insulation as every kind's (component/insulation.hpp): only a tester's volts pass it. Where nothing
/// was read and the part is good so far, it is undecided, since good ohms say nothing of it; so it comes after the
/// other rules. Adds one finding.
void judge_insulation(const Scene& scene, std::uint16_t rule);

}  // namespace ohmwright::kind_file
