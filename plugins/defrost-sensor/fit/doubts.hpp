#pragma once

#include <ohmwright/uncertainty/least_squares.hpp>

#include "fit/fit_row.hpp"

namespace ohmwright::defrost_sensor {

/// What was stated with the row, its temperature and its resistance together, as one half-width [K]; 0: nothing was.
double stated_half_width(const FitRow& row, double beta_kelvin);

/// Standard uncertainty of each row [K], from the half-widths stated with temperature and resistance (rectangular, GUM
/// 4.3.7), taken as independent; empty unless every row states one.
std::vector<double> stated_doubts(std::span<const FitRow> rows, double beta_kelvin);

/// Standard uncertainty, relative, that the rows leave the slope of ln R over 1/T by where they lie: their common
/// uncertainty is 0.2 K, as of a good thermometer in stirred water (common practice, no source), or that of their
/// half-widths where these are stated and larger. The scatter does not enter: three rows may lie on a line by chance.
/// Two rows or more at different temperatures.
double slope_doubt(std::span<const FitRow> rows, double beta_kelvin);

/// What a linear fit of the rows is made of.
struct RowEquations {
  std::size_t parameters = 0;
  std::vector<double> design;           ///< one row of parameters each
  std::vector<double> observed;         ///< in some unit
  std::vector<double> kelvin_per_unit;  ///< what one of that unit is in kelvin at that row
};

/// Least squares of the errors in kelvin, each weighed by its row's doubt, where stated (`doubts` not empty).
///
/// The covariance is that of the stated doubts, and larger by χ²/ν where the rows scatter more than these allow;
/// without stated doubts the scatter alone tells it, and it is 0 where the fit goes exactly through the rows. Throws
/// InputError where the rows do not tell the parameters apart.
Fit fit_rows(const RowEquations& equations, std::span<const double> doubts);

}  // namespace ohmwright::defrost_sensor
