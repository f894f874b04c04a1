#pragma once

#include <string>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/plugin/stamp_check.hpp>

namespace ohmwright {

/// Everything that is wrong or missing in what a kind says of itself; empty when it can be used.
///
/// - Id and aliases as in the stamp; a title, a text domain, a schema, a measurand, an essential rule; every text,
///   title, source and unit there and fit to be shown; ids well formed and unique in their list; references resolved.
/// - Units of their dimension; no more conditions than a reading carries; no option of a condition that the command
///   line (`reserved_options`), a measurand or another condition has already; chart axes with a span of their
///   condition.
/// - Every procedure with a caution, of the framework or of the kind, and none of the framework's cautions replaced; a
///   brief caution without a full stop and of 90 bytes at most; probabilities and weights possible.
/// - The fields of sentences can be filled: {name}.
std::vector<std::string> descriptor_problems(const Descriptor& descriptor, const StampedKind& stamped);

}  // namespace ohmwright
