#pragma once

#include <optional>
#include <span>

#include "fit/fit_row.hpp"
#include "fit/pattern.hpp"

namespace ohmwright::defrost_sensor {

/// What the others say of the outermost rows.
struct EndRows {
  /// How far the neighbour of one misses any thermistor's curve through it and another [K]; 0: none does.
  double disagree_kelvin = 0.0;
  /// Where the one is whose error no other row would show.
  std::optional<Temperature> unsupported;
};

/// Looks at the two ends of more rows than `look_at_few` takes, sorted from cold to hot: a search of outliers cannot
/// see an end that the curve bends itself to. Each is held, through its neighbour, against the nearest row beyond by
/// which an error of 2 K in it would show: it may miss by 0.6 K, or by three standard deviations of what the scatter of
/// the others makes of three rows.
EndRows look_at_ends(std::span<const FitRow> rows, const ThermistorLine& line);

}  // namespace ohmwright::defrost_sensor
