#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/component/descriptor.hpp>

#include "formula/formula.hpp"

namespace ohmwright::kind_file {

/// What a part's ratings state, in the order of the kind's own list [SI]; nothing where they leave a figure out.
using RatingValues = std::vector<std::optional<double>>;

/// One way to a figure: a quantity, a figure of the ratings with something added to it, or a formula of several.
struct FigureWay {
  std::uint16_t rating = not_found;  ///< index into `Definition::ratings`; `not_found`: a quantity or a formula
  double value = 0.0;                ///< [SI] the quantity, or what is added to the rating
  std::shared_ptr<const Formula> formula = nullptr;

  bool is_quantity() const { return rating == not_found && formula == nullptr; }
};

/// A figure that a rule is made of: the first way that is known counts.
struct Figure {
  boost::container::static_vector<FigureWay, 4> ways;

  bool is_given() const { return !ways.empty(); }

  /// The formula of conditions that it is, or null: such a one stands alone.
  const Formula* of_conditions() const {
    if (ways.empty() || ways.front().formula == nullptr || ways.front().formula->conditions.empty()) return nullptr;
    return ways.front().formula.get();
  }

  /// Its value [SI], or nothing where the ratings state none of its ways, or conditions are part of it. Not a number
  /// where a formula gives none.
  std::optional<double> value(const RatingValues& ratings) const {
    if (of_conditions() != nullptr) return std::nullopt;
    for (const FigureWay& way : ways) {
      if (way.is_quantity()) return way.value;
      if (way.formula != nullptr) {
        if (way.formula->is_known(ratings)) return way.formula->at(ratings, {}).value;
        continue;
      }
      if (way.rating < ratings.size() && ratings[way.rating]) return *ratings[way.rating] + way.value;
    }
    return std::nullopt;
  }
};

}  // namespace ohmwright::kind_file
