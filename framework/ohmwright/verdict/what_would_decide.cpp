#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/verdict/what_would_decide.hpp>

namespace ohmwright {

namespace {

double conformance(double y, double u, double lower, double upper) {
  if (u <= 0.0) return y >= lower && y <= upper ? 1.0 : 0.0;
  return normal_probability_below((upper - y) / u) - normal_probability_below((lower - y) / u);
}

/// The density of the standard normal distribution at `z`.
double normal_density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi); }

/// How far from `inside` towards `outside` the conformance probability stays at or above `level`: it falls
/// monotonically from the middle of the limits outwards. Newton's steps, and a bisection where one would leave the
/// bracket that is known, until the bracket or the step no longer matters.
double farthest(double inside, double outside, double u, double lower, double upper, double level) {
  double at = 0.5 * (inside + outside);
  for (int step = 0; step < 80; ++step) {
    const double excess = conformance(at, u, lower, upper) - level;
    (excess >= 0.0 ? inside : outside) = at;
    const double slope = u <= 0.0 ? 0.0 : (normal_density((lower - at) / u) - normal_density((upper - at) / u)) / u;
    double next = slope == 0.0 ? inside : at - excess / slope;
    const bool stays_between = (next > inside && next < outside) || (next < inside && next > outside);
    if (!stays_between) next = 0.5 * (inside + outside);
    if (next == inside || next == outside || std::abs(next - at) <= 1e-14 * u) return next;
    at = next;
  }
  return inside;
}

/// A point so far beyond a limit that any reading there is decided.
double far_beyond(double limit, double u, double sign) { return limit + sign * (40.0 * u + 1e-12 * std::abs(limit)); }

/// Where a reading of uncertainty u has a conformance probability of at least `level`; empty (first > second) if
/// nowhere.
struct Span {
  double first;
  double second;
};

Span span_with_at_least(double u, double lower, double upper, double level) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const double middle = std::isinf(lower)   ? far_beyond(upper, u, -1.0)
                        : std::isinf(upper) ? far_beyond(lower, u, 1.0)
                                            : 0.5 * (lower + upper);
  if (conformance(middle, u, lower, upper) < level) return {infinity, -infinity};
  if (std::isinf(lower)) return {-infinity, farthest(middle, far_beyond(upper, u, 1.0), u, lower, upper, level)};
  const double first = farthest(middle, far_beyond(lower, u, -1.0), u, lower, upper, level);
  // What holds at a distance from one limit holds at the same distance from the other.
  return {first, std::isinf(upper) ? infinity : upper - (first - lower)};
}

}  // namespace

double probability_of_decision(const Estimate& now, double lower, double upper, NextReading next, double confidence) {
  if (std::isinf(lower) && std::isinf(upper)) return 1.0;
  const double u = next.standard_uncertainty;
  const double shared = next.shared_uncertainty;
  const double spread =
      std::sqrt(std::max(0.0, now.variance() - shared * shared) + std::max(0.0, u * u - shared * shared));
  const auto below = [&](double value) {
    if (spread == 0.0) return now.value() < value ? 1.0 : 0.0;
    return normal_probability_below((value - now.value()) / spread);
  };
  const Span passing = span_with_at_least(u, lower, upper, confidence);
  const double passed = passing.first > passing.second ? 0.0 : below(passing.second) - below(passing.first);
  // Condemned where one side alone holds the confidence.
  const double reach = normal_quantile(confidence) * u;
  const double condemned = below(lower - reach) + 1.0 - below(upper + reach);
  return std::clamp(passed + condemned, 0.0, 1.0);
}

}  // namespace ohmwright
