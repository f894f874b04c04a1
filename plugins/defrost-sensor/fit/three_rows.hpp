#pragma once

#include "fit/fit_row.hpp"

namespace ohmwright::defrost_sensor {

/// What rows may lie apart and still agree [K]: half of the 5 % that ratings from rows have (common practice, no
/// source).
inline constexpr double agreeing_kelvin = 0.6;

/// An outermost row has at least this share on the line where its neighbour is, so that an error of 2 K in it shows.
inline constexpr double least_share_of_an_end = agreeing_kelvin / 2.0;

/// How much of an error of the cold row lands on the line of ln R over 1/T where the middle one is [0…1]; of the hot
/// one it is the rest.
double share_of_cold(const FitRow& cold, const FitRow& middle, const FitRow& hot);

/// How far the middle row misses all curves of thermistors through the outer ones [K]; 0 where no farther than
/// `allowed_kelvin`, or than the half-widths stated with the three allow.
double missed_by(const FitRow& cold, const FitRow& middle, const FitRow& hot, double beta_kelvin,
                 double allowed_kelvin);

}  // namespace ohmwright::defrost_sensor
