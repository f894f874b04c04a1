#pragma once

#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "model/definition.hpp"
#include "part/part_of_file.hpp"

namespace ohmwright::kind_file {

/// Holds the figures that both ratings state against each other, one finding each: those of which the file says which
/// other value does as well (`RatingRow::stands_in`), those that no rule takes its value from, and the volts.
void compare_figures(const Definition& definition, const PartOfFile& original, const PartOfFile& candidate,
                     std::vector<EquivalenceFinding>& findings);

}  // namespace ohmwright::kind_file
