#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "fit/fit_row.hpp"

namespace ohmwright::defrost_sensor {

/// Up to so many rows are few: of more a search tells which are wrong, but for the outermost ones (`EndRows`).
inline constexpr std::size_t most_few_rows = 5;

/// What becomes of rows too few for a search.
struct FewRows {
  /// A flag a row: without it the others agree. At most one.
  std::vector<bool> off;
  /// How far the middle one of three neighbours misses any thermistor's curve through the outer ones, where nobody
  /// knows which of them is wrong. 0: they agree.
  double disagree_kelvin = 0.0;
  /// Where the outermost row is that lies so far from the others that its error would not show.
  std::optional<Temperature> unsupported;
};

/// Whether three to five rows, from cold to hot, each temperature once, lie on a curve of a thermistor: of each three
/// neighbours the middle one lies on the line of ln R over 1/T through the outer ones, or below by as much as the bend
/// allows, to within 0.6 K, half of the 5 % that ratings from rows have (common practice, no source), or to within what
/// the half-widths stated with the three allow, where that is more. An outermost row must lie so near to its neighbours
/// that an error of 2 K in it would show beyond the 0.6 K. Fewer rows or more: nothing is said.
FewRows look_at_few(std::span<const FitRow> rows, double beta_kelvin);

}  // namespace ohmwright::defrost_sensor
