#pragma once

#include "rules/scene.hpp"

namespace ohmwright::kind_file {

/// Judges a rule on a contact: closed or open against where a good part is the one or the other. Adds one finding.
///
/// Between limits of good parts the most favourable one counts, P(what was seen | good part), so that no part within
/// them is ever condemned (docs/arithmetic.md). A contact passes once it was seen right at every end that the file
/// asks for, set by a state with each value of it; never in circuit, and closed only with a lead off.
void judge_contact(const Scene& scene, std::uint16_t rule);

}  // namespace ohmwright::kind_file
