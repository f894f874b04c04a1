#include "rules/what_decides.hpp"

#include <algorithm>
#include <numbers>

#include <ohmwright/verdict/what_would_decide.hpp>

namespace ohmwright::defrost_sensor {

namespace {

constexpr double sqrt3 = std::numbers::sqrt3;

/// Variances of an estimate by what they come from.
struct Variances {
  double temperature = 0.0;
  double meter = 0.0;
  double scatter = 0.0;
  double model = 0.0;
  double sum() const { return temperature + meter + scatter + model; }
};

bool is_temperature(const Scene& scene, SourceIndex source) {
  return std::any_of(scene.usable.begin(), scene.usable.end(), [source](const Deviation& deviation) {
    const auto terms = deviation.reading->condition(part_temperature)->terms();
    return std::any_of(terms.begin(), terms.end(), [source](const Term& term) { return term.source == source; });
  });
}

Variances variances_of(const Scene& scene, const Estimate& log) {
  Variances found;
  for (const Term& term : log.terms()) {
    const double variance = term.standard_uncertainty * term.standard_uncertainty;
    if (term.source == Evidence::model_source)
      found.model += variance;
    else if (is_temperature(scene, term.source))
      found.temperature += variance;
    else if (scene.evidence.sources()[term.source].id == "repeatability")
      found.scatter += variance;
    else
      found.meter += variance;
  }
  return found;
}

}  // namespace

namespace {

/// A bath stirred badly, or a thermometer with half a scale's line of error (common practice, no source) [K].
constexpr double ice_point_reach_kelvin = 0.5;
/// Still the doubt of a bath, not of a thermometer in air [K].
constexpr double widest_ice_bath_kelvin = 0.3 + 1e-9;  // 0.3 K as typed may come back a last bit wider

bool at_ice_point(const Deviation& deviation) {
  return std::abs(deviation.temperature.celsius()) <= ice_point_reach_kelvin + 1e-9;
}

}  // namespace

Doubt doubt_of(const Scene& scene) {
  const Variances v = variances_of(scene, scene.fused->log);
  const double sum = v.sum();
  if (sum <= 0.0) return {};
  return {v.temperature / sum, v.meter / sum, v.scatter / sum, v.model / sum};
}

bool read_at_ice_point(const Scene& scene) {
  return std::any_of(scene.usable.begin(), scene.usable.end(), [](const Deviation& deviation) {
    const Estimate& temperature = *deviation.reading->condition(part_temperature);
    return at_ice_point(deviation) && temperature_half_width(temperature) <= widest_ice_bath_kelvin;
  });
}

bool near_ice_point(const Scene& scene) { return std::any_of(scene.usable.begin(), scene.usable.end(), at_ice_point); }

double chance_at(const Scene& scene, Temperature t, double half_width_kelvin) {
  const Curve& curve = *scene.ratings->curve;
  if (!curve.domain().contains(t)) return 0.0;
  const double of_thermometer = half_width_kelvin / sqrt3 * curve.log_slope(t);
  const double of_model = curve.model_error(t) / sqrt3;
  const double of_meter = variances_of(scene, scene.usable[0].log).meter;
  const LogLimits limits = scene.ratings->tolerance.at(curve, t);
  return probability_of_decision(scene.fused->log, limits.lower, limits.upper,
                                 {std::sqrt(of_meter + of_thermometer * of_thermometer + of_model * of_model)},
                                 scene.settings.confidence);
}

double chance_at_ice_point(const Scene& scene) {
  return chance_at(scene, Temperature::from_celsius(0.0), ice_bath_kelvin);
}

double chance_at_room(const Scene& scene) {
  return chance_at(scene, Temperature::from_celsius(room_celsius), room_kelvin);
}

bool read_at_room(const Scene& scene) {
  return std::any_of(scene.usable.begin(), scene.usable.end(), [](const Deviation& deviation) {
    return std::abs(deviation.temperature.celsius() - room_celsius) <= 8.0;
  });
}

double chance_with_better_meter(const Scene& scene) {
  const Variances v = variances_of(scene, scene.fused->log);
  const double of_meter = std::min(v.meter, better_meter_share * better_meter_share / 3.0);
  return probability_of_decision(
      scene.fused->log, scene.fused->limits.lower, scene.fused->limits.upper,
      {std::sqrt(v.temperature + v.model + v.scatter + of_meter), std::sqrt(v.temperature + v.model)},
      scene.settings.confidence);
}

}  // namespace ohmwright::defrost_sensor
