#pragma once

#include <span>
#include <vector>

#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// How an estimate, or several, stand to their limits.
struct Conformance {
  double within = 0.0;  ///< P(lower ≤ Y ≤ upper) [dimensionless]
  /// P(Y is not beyond the one limit that it most likely is beyond). At least `within`, and far above it where both
  /// limits are in doubt: then little is known, and the part is not condemned for that. Only figures below one half are
  /// looked at, so `within` stands here where it is one half or more.
  double not_beyond = 0.0;
};

/// The conformance of one estimate (`probability_between`). Infinite limits are allowed; a not-a-number gives one.
OHMWRIGHT_CORE_API Conformance conformance_of(const Estimate& estimate, std::span<const ErrorSource> sources,
                                              double lower, double upper);

/// The three-way decision: within limits at P(within) ≥ c; out of limits where one side alone holds the confidence,
/// P(not beyond that side) ≤ 1 − c; else undecided. 0.5 < c < 1; what is not a number is undecided, never a pass.
/// Source: JCGM 106:2012, 7 (conformance probability); the two-sided use of c is ours (docs/arithmetic.md).
OHMWRIGHT_CORE_API Outcome decide(Conformance conformance, double confidence);

/// The decision on a state or an over-range reading: P(observed | part within limits) of at most 1 − c condemns,
/// anything else is consistent with a good part, which is not yet a pass: undecided.
OHMWRIGHT_CORE_API Outcome decide_observed(double probability_observed_if_within, double confidence);

/// Shares of the variance by source, largest first; empty for an estimate without doubt.
OHMWRIGHT_CORE_API std::vector<BudgetShare> budget_of(const Estimate& estimate);

}  // namespace ohmwright
