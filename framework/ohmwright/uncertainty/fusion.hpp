#pragma once

#include <span>

#include <boost/container/static_vector.hpp>

#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright {

// Several readings of one quantity as one (GUM 5.2, generalised least squares: Aitken). Nothing here allocates.

/// Most readings that are fused: more bring nothing, their shared errors remain.
inline constexpr std::size_t most_fused = 8;

using FusionWeights = boost::container::static_vector<double, most_fused>;

/// Weights ≥ 0 and of sum 1 of the best linear combination of one to eight estimates of the same quantity, with the
/// covariance that their shared sources make (one meter, one thermometer).
OHMWRIGHT_CORE_API FusionWeights fusion_weights(std::span<const Estimate> estimates);

/// That combination. All sources must fit into one estimate (`can_be_fused`).
OHMWRIGHT_CORE_API Estimate fuse(std::span<const Estimate> estimates);

/// Whether one more estimate can be fused with these.
OHMWRIGHT_CORE_API bool can_be_fused(std::span<const Estimate> estimates, const Estimate& another);

/// How far two of them lie apart at most, in standard uncertainties of their difference; 0 for one.
OHMWRIGHT_CORE_API double worst_disagreement(std::span<const Estimate> estimates);

/// How far `another` lies from `one`, in standard uncertainties of both taken as independent: for readings that no
/// longer fit into a fusion. What bring nothing to the mean can still contradict it.
OHMWRIGHT_CORE_API double disagreement_of(const Estimate& one, const Estimate& another);

}  // namespace ohmwright
