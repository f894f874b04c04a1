#include "rules/what_decides.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <ohmwright/verdict/what_would_decide.hpp>

namespace ohmwright::bimetal_thermostat {

namespace {

constexpr double half_step = 0.5 * fine_step_kelvin / std::numbers::sqrt3;

}  // namespace

double chance_of_fine_steps(const Scene& scene, const Bracketed& trip, double lower, double upper) {
  const double thermometer = trip.shared.standard_uncertainty();
  return probability_of_decision(trip.judged, lower, upper, {std::hypot(thermometer, half_step), thermometer},
                                 scene.settings.confidence);
}

double chance_of_better_thermometer(const Scene& scene, const Bracketed& trip, double lower, double upper) {
  const double gap = 0.5 * trip.width() / std::numbers::sqrt3;
  const double better = std::min(trip.shared.standard_uncertainty(), good_thermometer_kelvin / std::numbers::sqrt3);
  return probability_of_decision(trip.judged, lower, upper, {std::hypot(better, gap), 0.0}, scene.settings.confidence);
}

double share_of_gap(const Bracketed& trip) {
  const double all = trip.judged.variance();
  return all > 0.0 ? 1.0 - trip.shared.variance() / all : 0.0;
}

}  // namespace ohmwright::bimetal_thermostat
