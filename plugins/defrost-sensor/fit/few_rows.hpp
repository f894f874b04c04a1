#pragma once

#include <span>
#include <vector>

#include "fit/fit_row.hpp"

namespace ohmwright::defrost_sensor {

/// What becomes of rows too few for a search.
struct FewRows {
  std::vector<bool> off;  ///< a flag a row: without it the others agree; at most one
  double disagree_kelvin =
      0.0;  ///< how far three neighbours miss any thermistor's curve, and nobody knows which; 0: none
};

/// Whether three to five rows, from cold to hot, each temperature once, lie on a curve of a thermistor: of each three
/// neighbours the middle one lies on the line of ln R over 1/T through the outer ones, or below by as much as the bend
/// allows, to within 0.6 K, half of the 5 % that ratings from rows have (common practice, no source). A row that is 20
/// % off shifts it by 1 K and more. Fewer rows or more: nothing is said.
FewRows look_at_few(std::span<const FitRow> rows, double beta_kelvin);

}  // namespace ohmwright::defrost_sensor
