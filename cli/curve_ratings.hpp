#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/fitting.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/report/sentences.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// What keeps the ratings from being used, by the kind's own schema: mostly what no row can tell.
std::vector<std::string> wants_of_ratings(const ValueNode& ratings, const Descriptor& descriptor);

/// Writes the ratings of the chosen form (`--form`, else the best) to `--save`, with what `--set` says beside them.
/// The file says which figures were measured and which were only said. Throws InputError where `--set` would replace a
/// figure that the fit gave, and where the ratings would not do, in whose words `say` has.
void save_fitted_ratings(const Arguments& arguments, const Descriptor& descriptor, const Fitting& fitting,
                         std::size_t rows, const Sentences& say);

}  // namespace ohmwright::cli
