#include "rules/trip_judgement.hpp"

#include <limits>

namespace ohmwright::bimetal_thermostat {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double coarse_share = 0.5;  ///< of the width of the limits; ours

/// An estimate with the errors of `trip` but for the gap, at `value`.
Estimate at(const Bracketed& trip, double value) {
  Estimate moved = trip.shared;
  moved.shift(value - trip.shared.value());
  return moved;
}

}  // namespace

TripJudgement judge_bracketed(const Scene& scene, const Bracketed& trip, double lower, double upper) {
  const auto sources = scene.evidence.sources();
  TripJudgement found;
  found.judged = trip.judged;
  found.conformance = conformance_of(trip.judged, sources, lower, upper);
  found.outcome = decide(found.conformance, scene.settings.confidence);
  found.coarse = trip.width() > coarse_share * (upper - lower);
  if (!found.coarse && !trip.scatters) return found;
  const Estimate warmest = at(trip, trip.least);
  const Estimate coldest = at(trip, trip.most);
  const bool too_warm = scene.sure(probability_between(warmest, sources, upper, infinity));
  const bool too_cold = scene.sure(probability_between(coldest, sources, -infinity, lower));
  if (too_warm || too_cold) {
    found.outcome = Outcome::out_of_limits;
    found.judged = too_warm ? warmest : coldest;
    found.conformance = conformance_of(found.judged, sources, lower, upper);
  } else if (found.outcome == Outcome::out_of_limits) {
    found.outcome = Outcome::undecided;
  }
  found.may_be_joined = found.outcome != Outcome::undecided;
  return found;
}

void fill_finding(Finding& finding, const TripJudgement& judgement, double lower, double upper,
                  AnyQuantity (*to_quantity)(double)) {
  finding.measured = to_quantity(judgement.judged.value());
  finding.measured_uncertainty = judgement.judged.standard_uncertainty();
  finding.limits.lower = to_quantity(lower);
  finding.limits.upper = to_quantity(upper);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = judgement.conformance.within;
  if (!judgement.may_be_joined) return;
  finding.judged = judgement.judged;
  finding.judged_lower = lower;
  finding.judged_upper = upper;
}

}  // namespace ohmwright::bimetal_thermostat
