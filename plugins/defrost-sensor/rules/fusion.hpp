#pragma once

#include <span>

#include <boost/container/static_vector.hpp>

#include <ohmwright/uncertainty/fusion.hpp>

#include "rules/deviation.hpp"

namespace ohmwright::defrost_sensor {

using Deviations = boost::container::static_vector<Deviation, most_fused>;

/// Several deviations as one: the same weighted sum of the values, of their errors and of their limits.
struct Fusion {
  Estimate log;
  LogLimits limits;
  FusionWeights weights;
};

/// Best linear combination of one or more deviations: generalised least squares with the covariance that their shared
/// sources make (one meter, one thermometer, one curve), weights ≥ 0 and of sum 1. Allocates nothing.
Fusion fuse(std::span<const Deviation> deviations);

/// Whether one more deviation still fits: the union of all error sources must fit into one estimate.
bool fits(std::span<const Deviation> deviations, const Deviation& another);

/// Closer than this in temperature, two readings must agree; farther apart their difference is a slope (common
/// practice, no source: the errors of two thermometer readings fill the whole slope there) [K].
inline constexpr double least_kelvin_apart = 5.0;

/// Whether two readings are close enough in temperature to be compared as one.
bool comparable(const Deviation& a, const Deviation& b);

/// How far two deviations disagree beyond what one good part may do between their temperatures, in standard
/// uncertainties of their difference; 0 where they agree.
double disagreement(const SensorRatings& ratings, const Deviation& a, const Deviation& b);

}  // namespace ohmwright::defrost_sensor
