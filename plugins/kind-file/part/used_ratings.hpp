#pragma once

#include <vector>

#include "model/definition.hpp"

namespace ohmwright::kind_file {

/// By figure of the ratings: whether a rule names it.
using UsedRatings = std::vector<bool>;

/// The figures of the ratings that this rule is made of, be it in a formula or as one of several ways.
UsedRatings ratings_used_by(const RuleForm& form, std::size_t count);

/// Those of them that count in a part with these ratings: of several ways the one that is taken.
UsedRatings ratings_counted_in(const RuleForm& form, const RatingValues& ratings);

}  // namespace ohmwright::kind_file
