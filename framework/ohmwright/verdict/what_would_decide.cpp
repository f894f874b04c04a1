#include <algorithm>
#include <cmath>
#include <limits>

#include <ohmwright/verdict/what_would_decide.hpp>

namespace ohmwright {

namespace {

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

double conformance(double y, double u, double lower, double upper) {
  if (u <= 0.0) return y >= lower && y <= upper ? 1.0 : 0.0;
  return normal_cdf((upper - y) / u) - normal_cdf((lower - y) / u);
}

/// How far from `inside` towards `outside` the conformance probability stays at or above `level` (bisection: it falls
/// monotonically from the middle of the limits outwards).
double farthest(double inside, double outside, double u, double lower, double upper, double level) {
  for (int step = 0; step < 80; ++step) {
    const double middle = 0.5 * (inside + outside);
    (conformance(middle, u, lower, upper) >= level ? inside : outside) = middle;
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
  const double first =
      std::isinf(lower) ? -infinity : farthest(middle, far_beyond(lower, u, -1.0), u, lower, upper, level);
  const double second =
      std::isinf(upper) ? infinity : farthest(middle, far_beyond(upper, u, 1.0), u, lower, upper, level);
  return {first, second};
}

}  // namespace

double probability_of_decision(const Estimate& now, double lower, double upper, double new_standard_uncertainty,
                               double confidence) {
  if (std::isinf(lower) && std::isinf(upper)) return 1.0;
  const double spread = std::hypot(now.standard_uncertainty(), new_standard_uncertainty);
  const auto chance_between = [&](Span span) {
    return span.first > span.second ? 0.0 : conformance(now.value(), spread, span.first, span.second);
  };
  const double passed = chance_between(span_with_at_least(new_standard_uncertainty, lower, upper, confidence));
  const double not_condemned =
      chance_between(span_with_at_least(new_standard_uncertainty, lower, upper, 1.0 - confidence));
  return std::clamp(passed + 1.0 - not_condemned, 0.0, 1.0);
}

}  // namespace ohmwright
