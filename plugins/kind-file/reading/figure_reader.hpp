#pragma once

#include "model/definition.hpp"
#include "reading/notes.hpp"

namespace ohmwright::kind_file {

/// What a formula may be made of in its place.
enum class FormulaOf : std::uint8_t { ratings, conditions_too };

/// The figure in that field, of that dimension: a quantity, a figure of the ratings, a formula, or a list of these. Not
/// given, and a note where it is there and cannot be read.
Figure figure_in(const ValueNode& object, std::string_view field, Dimension dimension, const Definition& definition,
                 Notes& notes, FormulaOf may_be_of = FormulaOf::ratings);

/// The dimension of the figure in that field, told by its first way: that of the rating it names, that of its formula,
/// else a ratio where the text reads as one ("5 %"), else `otherwise`.
Dimension dimension_of_figure(const ValueNode& object, std::string_view field, Dimension otherwise,
                              const Definition& definition);

}  // namespace ohmwright::kind_file
