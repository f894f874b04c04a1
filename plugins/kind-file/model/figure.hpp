#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright::kind_file {

/// What a part's ratings state, in the order of the kind's own list [SI]; nothing where they leave a figure out.
using RatingValues = std::vector<std::optional<double>>;

/// One way to a figure: a quantity, or a figure of the ratings with something added to it.
struct FigureWay {
  std::uint16_t rating = not_found;  ///< index into `Definition::ratings`; `not_found`: a quantity
  double value = 0.0;                ///< [SI] the quantity, or what is added to the rating
};

/// A figure that a rule is made of: the first way that is known counts.
struct Figure {
  boost::container::static_vector<FigureWay, 4> ways;

  bool is_given() const { return !ways.empty(); }

  /// Its value [SI], or nothing where the ratings state none of its ways.
  std::optional<double> value(const RatingValues& ratings) const {
    for (const FigureWay& way : ways) {
      if (way.rating == not_found) return way.value;
      if (way.rating < ratings.size() && ratings[way.rating]) return *ratings[way.rating] + way.value;
    }
    return std::nullopt;
  }
};

}  // namespace ohmwright::kind_file
