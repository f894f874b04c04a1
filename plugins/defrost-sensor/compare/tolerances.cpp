#include <algorithm>
#include <cmath>

#include "compare/properties.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr TextEntry as_close{
    "as-close", OHMWRIGHT_TEXT("A good one is at most {candidate} % high at {where}, a good original {original} %.")};
constexpr TextEntry wider{
    "wider-tolerance", OHMWRIGHT_TEXT("A good one may be {candidate} % off at {where}, a good original only {original} "
                                      "%: read the new one in ice water before you fit it.")};

constexpr double ratio_still_close = 1.1;
constexpr double grid_kelvin = 0.5;

double half_width(const SensorRatings& ratings, Temperature t) {
  const LogLimits limits = ratings.tolerance.at(*ratings.curve, t);
  return std::max(std::abs(limits.lower), std::abs(limits.upper));
}

/// As ratings state it: "5 %" is 5 % high; on the logarithmic scale the low side is the wider one.
double percent_high(const SensorRatings& ratings, Temperature t) {
  return percent_off(ratings.tolerance.at(*ratings.curve, t).upper);
}

}  // namespace

EquivalenceFinding compare_tolerances(const Pair& pair, TemperatureSpan span) {
  const auto ratio = [&](Temperature t) { return half_width(pair.candidate, t) / half_width(pair.original, t); };
  Temperature worst = span.from;
  for (Temperature t = span.from; t < span.to; t = t + TemperatureDifference::from_value(grid_kelvin))
    if (ratio(t) > ratio(worst)) worst = t;
  if (ratio(span.to) > ratio(worst)) worst = span.to;
  const bool close = ratio(worst) <= ratio_still_close;
  EquivalenceFinding finding =
      finding_of(close ? Outcome::within_limits : Outcome::undecided, close ? as_close : wider);
  tell(finding, "where", AnyQuantity(worst));
  tell(finding, "original", percent_high(pair.original, worst));
  tell(finding, "candidate", percent_high(pair.candidate, worst));
  return finding;
}

}  // namespace ohmwright::defrost_sensor
