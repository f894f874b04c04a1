#pragma once

#include <algorithm>
#include <cmath>
#include <optional>

namespace ohmwright::defrost_sensor {

struct ValueAndSlope {
  double value;
  double slope;
};

/// x in [low, high] with f(x) = target, for a function that rises there; nothing when the target lies outside.
///
/// Newton's steps, halved towards the bracket where they leave it: no start value is needed and it cannot run away.
template <class Function>
std::optional<double> invert_rising(const Function& f, double target, double low, double high) {
  constexpr int most_steps = 100;
  constexpr double rounding = 1e-12;
  const double at_low = f(low).value;
  const double at_high = f(high).value;
  const double slack = rounding * std::max(std::abs(at_low), std::abs(at_high));
  if (!(target >= at_low - slack && target <= at_high + slack)) return std::nullopt;
  double x = 0.5 * (low + high);
  for (int step = 0; step < most_steps; ++step) {
    const auto [value, slope] = f(x);
    (value < target ? low : high) = x;
    double next = x - (value - target) / slope;
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    if (std::abs(next - x) <= 4e-16 * std::abs(x)) return next;
    x = next;
  }
  return x;
}

}  // namespace ohmwright::defrost_sensor
