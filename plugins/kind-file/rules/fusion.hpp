#pragma once

#include <span>

#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright::kind_file {

/// Most readings that are fused: more bring nothing, their shared errors remain.
inline constexpr std::size_t most_fused = 8;

/// Best linear combination of one to eight estimates of the same quantity: generalised least squares with the
/// covariance that their shared sources make, weights ≥ 0 and of sum 1. All their sources must fit into one estimate
/// (`fits`). Allocates nothing.
Estimate fuse(std::span<const Estimate> estimates);

/// Whether one more estimate can be fused with these.
bool fits(std::span<const Estimate> estimates, const Estimate& another);

/// How far two of them lie apart, in standard uncertainties of their difference; 0 for one.
double worst_disagreement(std::span<const Estimate> estimates);

}  // namespace ohmwright::kind_file
