#include "rules/fusion.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright::defrost_sensor {

namespace {

using Logs = boost::container::static_vector<Estimate, most_fused>;

Logs logs_of(std::span<const Deviation> deviations) {
  Logs logs;
  for (const Deviation& deviation : deviations) logs.push_back(deviation.log);
  return logs;
}

}  // namespace

Fusion fuse(std::span<const Deviation> deviations) {
  if (deviations.size() == 1) return {deviations[0].log, deviations[0].limits, {1.0}};
  const Logs logs = logs_of(deviations);
  Fusion fusion;
  fusion.weights = fusion_weights({logs.data(), logs.size()});
  for (std::size_t i = 0; i < deviations.size(); ++i) {
    if (fusion.weights[i] == 0.0) continue;
    fusion.log.add_scaled(deviations[i].log, fusion.weights[i]);
    fusion.limits.lower += fusion.weights[i] * deviations[i].limits.lower;
    fusion.limits.upper += fusion.weights[i] * deviations[i].limits.upper;
  }
  return fusion;
}

bool fits(std::span<const Deviation> deviations, const Deviation& another) {
  if (deviations.empty()) return true;  // the usual case, at no cost
  const Logs logs = logs_of(deviations);
  return can_be_fused({logs.data(), logs.size()}, another.log);
}

bool comparable(const Deviation& a, const Deviation& b) {
  return std::abs((a.temperature - b.temperature).value()) < least_kelvin_apart;
}

double disagreement(const SensorRatings& ratings, const Deviation& a, const Deviation& b) {
  Estimate difference = a.log;
  difference.add_scaled(b.log, -1.0);
  const LogLimits allowed = ratings.tolerance.of_difference(*ratings.curve, a.temperature, b.temperature);
  // At one temperature the tolerance explains nothing, for it is one part; it counts in full once R differs by e.
  const double share = std::min(1.0, std::abs(a.log_nominal - b.log_nominal));
  const double lower = share * allowed.lower;
  const double upper = share * allowed.upper;
  const double beyond = std::max({0.0, difference.value() - upper, lower - difference.value()});
  if (beyond == 0.0) return 0.0;
  const double u = difference.standard_uncertainty();
  return u > 0.0 ? beyond / u : std::numeric_limits<double>::infinity();
}

}  // namespace ohmwright::defrost_sensor
