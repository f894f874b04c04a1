#pragma once

#include <ohmwright/verdict/decision.hpp>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// What a trip point, or a difference of two, is worth against its limits [K].
struct TripJudgement {
  Outcome outcome = Outcome::undecided;
  Conformance conformance;
  Estimate judged;
  /// The readings that it lies between are too far apart: only what lies wholly beyond a limit is decided.
  bool coarse = false;
  /// Whether `judged` may enter the joint probability. Not where only the width of the gap speaks against the part:
  /// how wide it is was chosen by whoever read it.
  bool may_be_joined = true;
};

/// Within limits at P(within) ≥ c, the trip being as likely everywhere in its gap (JCGM 106; GUM 4.3.7). Out of limits
/// by the same rule where the gap is at most half as wide as the limits; where it is wider, or the trip scatters, only
/// if one passage lies beyond a limit with all of its gap.
TripJudgement judge_bracketed(const Scene& scene, const Bracketed& trip, double lower, double upper);

/// Puts figures, limits and probability of a judgement into a finding. `to_quantity` makes a temperature or a
/// difference of kelvins.
void fill_finding(Finding& finding, const TripJudgement& judgement, double lower, double upper,
                  AnyQuantity (*to_quantity)(double));

}  // namespace ohmwright::bimetal_thermostat
