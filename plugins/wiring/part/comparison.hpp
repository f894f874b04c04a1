#pragma once

#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "part/wiring_ratings.hpp"

namespace ohmwright::wiring {

/// Whether one lead, connector or splice can stand in for another: form, cross-section, metal, strands, length,
/// contacts, current, insulation and the heat that it stands. Null ratings: nothing can be compared.
std::vector<EquivalenceFinding> compare_wiring(const WiringRatings* original, const WiringRatings* candidate,
                                               const ComparisonContext& context);

}  // namespace ohmwright::wiring
