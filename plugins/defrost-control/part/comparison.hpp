#pragma once

#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "part/control_ratings.hpp"

namespace ohmwright::defrost_control {

/// Whether `candidate` can stand in for `original`: what it is, its line, what its contacts carry, its times, its
/// sensor input. Null: nothing is known of that one. The context's load current is what the contacts have to carry.
std::vector<EquivalenceFinding> compare_controls(const ControlRatings* original, const ControlRatings* candidate,
                                                 const ComparisonContext& context);

}  // namespace ohmwright::defrost_control
