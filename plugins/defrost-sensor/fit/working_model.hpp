#pragma once

#include <span>

#include <ohmwright/uncertainty/least_squares.hpp>

#include "fit/fit_row.hpp"
#include "fit/pattern.hpp"

namespace ohmwright::defrost_sensor {

/// ln R = p0 + p1·z + p2·z², z a scaled 1/T: what the rows are checked against. Close to every published material
/// (0.6 K over 160 K of span at worst, 4 mK over the chart of 90 K), always solvable, and it tells the resistance that
/// was to be expected. Ratings are never made from it.
class WorkingModel {
 public:
  /// Of four rows or more at different temperatures; otherwise the line as it is.
  WorkingModel(std::span<const FitRow> rows, const ThermistorLine& line);

  double log_resistance(Temperature t) const;
  /// How far the row lies from the model [K]: what a sensor of this model would say, less what the row says.
  double kelvin_off(const FitRow& row) const;

  /// √(sum of squares / degrees of freedom) [K]; 0 where the line stands.
  double scatter() const;
  std::size_t degrees_of_freedom() const { return fit_ ? fit_->degrees_of_freedom : 0; }
  /// Variance of the model at that row relative to the scatter's: its leverage, where the row is one of those fitted.
  double leverage(const FitRow& row) const;

  static constexpr std::size_t parameters = 3;

 private:
  double scaled(Temperature t) const { return (1.0 / t.kelvin() - middle_) / reach_; }
  /// Kelvin a unit of ln R at that row.
  double kelvin_per_log(const FitRow& row) const;

  ThermistorLine line_;
  std::optional<Fit> fit_;
  double middle_ = 0.0;
  double reach_ = 1.0;
};

}  // namespace ohmwright::defrost_sensor
