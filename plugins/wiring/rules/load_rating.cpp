#include "rules/load_rating.hpp"

#include <limits>

namespace ohmwright::wiring {

namespace {

enum Text : TextIndex { carries_it, carries_too_much, near_its_rating, no_rating, no_load };

/// The last reading that names a current.
const PreparedReading* loaded_reading(const Scene& scene) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (reading.condition(load_current) != nullptr && has_current(reading)) last = &reading;
  return last;
}

}  // namespace

RuleDescriptor describe_load_rating() {
  return {
      "load-rating",
      OHMWRIGHT_TEXT("Current against its rating"),
      false,
      can_pass | can_be_undecided,
      "the rated current as the ratings state it",
      {
          {"carries-it", OHMWRIGHT_TEXT("It carries {current} and is made for {rated}.")},
          {"carries-too-much",
           OHMWRIGHT_TEXT("It carries {current} and is made for {rated}: it may be sound, but it is too small for this "
                          "place, or its load draws too much.")},
          {"near-its-rating",
           OHMWRIGHT_TEXT("It carries {current} and is made for {rated}: too near to tell with this clamp.")},
          {"no-rating", OHMWRIGHT_TEXT("Not judged: its rated current is not known.")},
          {"no-load", OHMWRIGHT_TEXT("Not judged: what it carries was not read.")},
      }};
}

void judge_load_rating(const Scene& scene) {
  const PreparedReading* reading = loaded_reading(scene);
  const bool rated = scene.ratings != nullptr && scene.ratings->rated_current;
  if (reading == nullptr || !rated) {
    scene.findings.add(load_rating, Outcome::silent, reading == nullptr ? no_load : no_rating);
    return;
  }
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const Estimate& current = *reading->condition(load_current);
  const double most = scene.ratings->rated_current->value();
  const Conformance p = conformance_of(current, scene.evidence.sources(), -infinity, most);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = near_its_rating;
  if (outcome == Outcome::within_limits) text = carries_it;
  if (outcome == Outcome::out_of_limits) text = carries_too_much;
  // Too much current is no fault of the wire.
  Finding& finding =
      scene.findings.add(load_rating, outcome == Outcome::out_of_limits ? Outcome::undecided : outcome, text);
  finding.holds_back = text == carries_too_much;
  finding.measured = in_amperes(current.value());
  finding.measured_uncertainty = current.standard_uncertainty();
  finding.limits.upper = in_amperes(most);
  tell(finding, "current", *finding.measured);
  tell(finding, "rated", *finding.limits.upper);
  if (text == carries_too_much) return;
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.judged = current;
  finding.judged_lower = -infinity;
  finding.judged_upper = most;
}

}  // namespace ohmwright::wiring
