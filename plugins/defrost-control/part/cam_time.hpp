#pragma once

#include "part/control_ratings.hpp"

namespace ohmwright::defrost_control {

/// How much longer a cam takes on that line than on the one it is made for [dimensionless]: its synchronous motor turns
/// with the frequency, n = 120 f/p. 1 for a board, and where the rated frequency is not stated.
inline double time_factor(const ControlRatings& ratings, double hertz) {
  if (!ratings.is_timer() || !ratings.frequency) return 1.0;
  return ratings.frequency->value() / hertz;
}

}  // namespace ohmwright::defrost_control
