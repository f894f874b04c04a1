#include "rules/slope.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::defrost_sensor {

namespace {

/// A single path explains both readings when what it would have to be differs by less than this many uncertainties.
constexpr double explains_within = 2.0;

// Materials of thermistors lie well within these (common practice, no source); what changes by less than the third
// stood still.
constexpr double least_beta_kelvin = 2000.0;
constexpr double greatest_beta_kelvin = 5500.0;
constexpr double standing_beta_kelvin = 1000.0;

Explanation explanation(double from_cold, double u_cold, double from_hot, double u_hot) {
  const double u = std::hypot(u_cold, u_hot);
  return {u_hot < u_cold ? from_hot : from_cold,
          u > 0.0 ? std::abs(from_cold - from_hot) / u : std::numeric_limits<double>::infinity()};
}

/// 1 above its limits, -1 below them, 0 where the reading alone would not condemn.
int side_of(const Scene& scene, const Deviation& deviation) {
  const Conformance alone =
      conformance_of(deviation.log, scene.evidence.sources(), deviation.limits.lower, deviation.limits.upper);
  if (decide(alone, scene.settings.confidence) != Outcome::out_of_limits) return 0;
  return deviation.log.value() > deviation.limits.upper ? 1 : -1;
}

bool each_condemns_alike(const Scene& scene, const Pair& pair) {
  const int side = side_of(scene, pair.cold);
  return side != 0 && side == side_of(scene, pair.hot);
}

bool is_outside_all_materials(const Pair& pair) {
  Estimate difference = pair.cold.log;
  difference.add_scaled(pair.hot.log, -1.0);
  const double doubt = 2.0 * difference.standard_uncertainty() / std::abs(pair.inverse_apart());
  return pair.beta() + doubt < least_beta_kelvin || pair.beta() - doubt > greatest_beta_kelvin;
}

}  // namespace

bool Explanation::possible() const { return value > 0.0 && apart <= explains_within; }

Pair farthest_apart(const Deviations& usable) {
  const auto [cold, hot] =
      std::minmax_element(usable.begin(), usable.end(),
                          [](const Deviation& a, const Deviation& b) { return a.temperature < b.temperature; });
  return {*cold, *hot};
}

Explanation in_series(const Pair& pair) {
  const auto extra = [](const Deviation& d) { return std::exp(d.log_nominal) * std::expm1(d.log.value()); };
  const auto u = [](const Deviation& d) { return std::exp(d.log_nominal) * d.log.standard_uncertainty(); };
  return explanation(extra(pair.cold), u(pair.cold), extra(pair.hot), u(pair.hot));
}

Explanation in_parallel(const Pair& pair) {
  const auto extra = [](const Deviation& d) { return std::exp(-d.log_nominal) * std::expm1(-d.log.value()); };
  const auto u = [](const Deviation& d) { return std::exp(-d.log_nominal) * d.log.standard_uncertainty(); };
  return explanation(extra(pair.cold), u(pair.cold), extra(pair.hot), u(pair.hot));
}

std::optional<ImpossibleSlope> impossible_slope(const Scene& scene) {
  if (!scene.fused || scene.usable.size() < 2) return std::nullopt;
  if (scene.ratings->curve->log_slope(scene.usable[0].temperature) > 0.0) return std::nullopt;
  const Pair pair = farthest_apart(scene.usable);
  if ((pair.hot.temperature - pair.cold.temperature).value() < least_kelvin_apart) return std::nullopt;
  if (!is_outside_all_materials(pair) || each_condemns_alike(scene, pair)) return std::nullopt;
  if (in_series(pair).possible() || in_parallel(pair).possible()) return std::nullopt;
  return std::abs(pair.beta()) < standing_beta_kelvin ? ImpossibleSlope::stood_still : ImpossibleSlope::no_such_beta;
}

}  // namespace ohmwright::defrost_sensor
