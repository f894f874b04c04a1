#pragma once

#include <cmath>
#include <numbers>

namespace ohmwright::locate {

/// Probability that a normal variable of that mean and standard deviation (above 0) lies below `at` [0…1].
inline double normal_probability_below(double at, double mean = 0.0, double deviation = 1.0) {
  return 0.5 * std::erfc((mean - at) / (deviation * std::numbers::sqrt2));
}

/// Its density there.
inline double normal_density(double at, double mean = 0.0, double deviation = 1.0) {
  const double t = (at - mean) / deviation;
  return std::exp(-0.5 * t * t) / (deviation * std::sqrt(2.0 * std::numbers::pi));
}

}  // namespace ohmwright::locate
