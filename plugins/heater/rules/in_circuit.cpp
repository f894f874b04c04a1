#include "rules/in_circuit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  everything_between_probes,
  high_not_proved,
  low_means_nothing,
  clears_nothing,
  beside_others,
  not_comparable,
  no_in_circuit,
  only_live,
  right_alone,
};

/// How far swapped probes may read apart and still agree, beside their own errors.
constexpr double swap_agreement = 0.02;

/// P(a good part reads that high) and P(it reads that low).
struct Sides {
  double not_above = 1.0;
  double not_below = 1.0;
};

Sides sides_of(const Scene& scene, const PreparedReading& reading) {
  const RatedResistance limits = scene.ratings->cold();
  if (shows_more_than_range(reading)) {
    const bool past = reading.shown == Shown::contact_open || reading.range_full_scale > limits.upper;
    return {past ? 0.0 : 1.0, 1.0};
  }
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const auto sources = scene.evidence.sources();
  return {probability_between(reading.value, sources, -infinity, limits.upper),
          probability_between(reading.value, sources, limits.lower, infinity)};
}

void judge_one(const Scene& scene, const PreparedReading& reading) {
  if (scene.ratings == nullptr) {
    scene.findings.add(in_circuit, Outcome::undecided, not_comparable);
    return;
  }
  const Sides sides = sides_of(scene, reading);
  const double least = 1.0 - scene.settings.confidence;
  const bool high = sides.not_above <= least;
  const bool proved = reading.supply == Supply::proved_dead &&
                      swapped_probes_agree(scene.evidence, reading, resistance_swapped, swap_agreement);
  Text text = sides.not_below <= least ? low_means_nothing : clears_nothing;
  if (scene.cold) text = beside_others;
  if (high) text = proved ? everything_between_probes : high_not_proved;
  if (high && proved && scene.cold && scene.cold->stated_off) text = right_alone;
  Finding& finding = scene.findings.add(
      in_circuit, text == everything_between_probes ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = std::min(sides.not_above, sides.not_below);
  finding.limits.upper = ohms(scene.ratings->cold().upper);
  tell(finding, "upper", *finding.limits.upper);
  if (reading.shown == Shown::value) finding.measured = ohms(reading.value.value());
}

}  // namespace

RuleDescriptor describe_in_circuit() {
  return {
      "in-circuit",
      OHMWRIGHT_TEXT("Readings in circuit"),
      false,
      can_condemn | can_be_undecided,
      "Kirchhoff: a passive path beside a part can only lower the resistance at its own terminals",
      {
          {"everything-between-probes",
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most. The points were proved "
                          "dead and swapped probes agree, so something between the probes is at fault: the element, a "
                          "link, a lead or a splice.")},
          {"high-not-proved",
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most. Prove the points dead, "
                          "then swap the probes and read again.")},
          {"low-means-nothing",
           OHMWRIGHT_TEXT(
               "In circuit it reads too low, which decides nothing: another path lies beside it. Lift one of "
               "its leads and read again.")},
          {"clears-nothing",
           OHMWRIGHT_TEXT("In circuit the reading is not too high, but that clears nothing: a path beside an open or "
                          "aged element can bring it back into the limits. Lift one of its leads and read again.")},
          {"beside-others",
           OHMWRIGHT_TEXT("In circuit other parts lie beside it; what it reads alone is what counts.")},
          {"not-comparable", OHMWRIGHT_TEXT("A reading in circuit without ratings has nothing to be compared with.")},
          {"no-in-circuit", OHMWRIGHT_TEXT("Not judged: no reading was taken in circuit.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"right-alone",
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most, though it was read alone "
                          "too, and that counts: look at the lead, splice or connector between it and the probes.")},
      }};
}

void judge_in_circuit(const Scene& scene) {
  bool judged = false;
  Text silence = no_in_circuit;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || !is_in_circuit(reading)) continue;
    if (is_live(reading)) {
      silence = only_live;
      continue;
    }
    judge_one(scene, reading);
    judged = true;
  }
  if (!judged) scene.findings.add(in_circuit, Outcome::silent, silence);
}

}  // namespace ohmwright::heater
