#pragma once

#include <span>

#include "fit/fit_row.hpp"

namespace ohmwright::defrost_sensor {

/// A straight line of ln R over 1/T.
struct ThermistorLine {
  double beta_kelvin = 0.0;
  double log_at_infinity = 0.0;  ///< ln R where 1/T = 0

  double log_resistance(Temperature t) const { return log_at_infinity + beta_kelvin / t.kelvin(); }
};

/// What the rows look like as a whole.
struct Pattern {
  enum class Sense {
    thermistor,  ///< more than half of them lie along one falling line
    rising,      ///< the resistance rises gently as it gets warmer: platinum
    none,
  };
  Sense sense = Sense::none;
  ThermistorLine line;            ///< of a thermistor
  double rise_per_kelvin = 0.0;   ///< of a rising one, relative
  std::vector<bool> on_the_line;  ///< of a thermistor, one a row: not grossly off
};

/// Finds the line that most rows lie along, however wrong the others are: the slope is the median of the slopes between
/// all pairs that a thermistor can have, the height the median of the rows (Theil and Sen; "Estimates of the regression
/// coefficient based on Kendall's tau", J. Am. Stat. Assoc. 63 (1968) 1379–1389, from memory).
Pattern pattern_of(std::span<const FitRow> rows);

}  // namespace ohmwright::defrost_sensor
