#pragma once

#include <span>
#include <vector>

#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// The three-way decision on a conformance probability: within limits at p ≥ c, out of limits at p ≤ 1 − c, else
/// undecided. 0.5 < c < 1; a p that is not a number is undecided, never a pass.
/// Source: JCGM 106:2012, 7 (conformance probability); the two-sided use of c is ours (docs/arithmetic.md).
OHMWRIGHT_CORE_API Outcome decide(double probability_within, double confidence);

/// The decision on a state or an over-range reading: P(observed | part within limits) of at most 1 − c condemns,
/// anything else is consistent with a good part, which is not yet a pass: undecided.
OHMWRIGHT_CORE_API Outcome decide_observed(double probability_observed_if_within, double confidence);

/// Shares of the variance by source, largest first; empty for an estimate without doubt.
OHMWRIGHT_CORE_API std::vector<BudgetShare> budget_of(const Estimate& estimate);

}  // namespace ohmwright
