#pragma once

#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "model/definition.hpp"
#include "part/part_of_file.hpp"

namespace ohmwright::kind_file {

/// Whether `candidate` can stand in for `original`, by what the file's rules and both ratings say: one finding a figure
/// and one a rule whose limits follow from ratings.
///
/// A voltage that a rule is made of must be the same within 5 %, limits must lie within those of the original, and a
/// contact must switch where the original does within 2 K, neither later nor earlier (all three common practice, no
/// source); one that protects against heat never acts later. A figure that no rule uses does as its
/// `RatingRow::stands_in` says; without that, what is not the same leaves it undecided, as does what is not stated.
std::vector<EquivalenceFinding> compare_parts(const Definition& definition, const PartOfFile& original,
                                              const PartOfFile& candidate, const ComparisonContext& context);

}  // namespace ohmwright::kind_file
