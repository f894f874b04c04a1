#pragma once

#include <string>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/plugin/stamp_check.hpp>

namespace ohmwright {

/// Everything that is wrong or missing in what a kind says of itself; empty when it can be used.
///
/// Id and aliases as in the stamp; a title, a schema, at least one measurand and one rule; every text, title, source
/// and unit there; ids well formed and unique in their list; every reference resolved; every procedure with a caution,
/// of the framework or of the kind, and none of the framework's cautions replaced; probabilities and weights possible.
std::vector<std::string> descriptor_problems(const Descriptor& descriptor, const StampedKind& stamped);

}  // namespace ohmwright
