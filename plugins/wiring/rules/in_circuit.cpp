#include "rules/in_circuit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ohmwright::wiring {

namespace {

enum Text : TextIndex {
  bad_between_probes,
  high_not_proved,
  clears_nothing,
  beside_others,
  not_comparable,
  no_in_circuit,
  only_live,
};

/// How far swapped probes may read apart and still agree, beside their own errors.
constexpr double swap_agreement = 0.02;

/// P(a good one reads that high).
double probability_not_above(const Scene& scene, const PreparedReading& reading) {
  const Estimate limit = scene.limit_at(reading);
  if (shows_more_than_range(reading))
    return reading.shown == Shown::contact_open || reading.range_full_scale > limit.value() ? 0.0 : 1.0;
  if (reading.shown == Shown::contact_closed) return 1.0;
  Estimate excess = reading.value;
  excess.add_scaled(limit, -1.0);
  return probability_between(excess, scene.evidence.sources(), -std::numeric_limits<double>::infinity(), 0.0);
}

void judge_one(const Scene& scene, const PreparedReading& reading) {
  if (!scene.knows_limit()) {
    scene.findings.add(in_circuit, Outcome::undecided, not_comparable);
    return;
  }
  const double not_above = probability_not_above(scene, reading);
  const bool high = not_above <= 1.0 - scene.settings.confidence;
  const bool proved = reading.supply == Supply::proved_dead &&
                      swapped_probes_agree(scene.evidence, reading, resistance_swapped, swap_agreement);
  Text text = scene.ohms || scene.drop ? beside_others : clears_nothing;
  if (high) text = proved ? bad_between_probes : high_not_proved;
  Finding& finding = scene.findings.add(in_circuit, high && proved ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = not_above;
  finding.limits.upper = in_ohms(scene.limit_at(reading).value());
  tell(finding, "limit", *finding.limits.upper);
  if (reading.shown == Shown::value) finding.measured = in_ohms(reading.value.value());
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
          {"bad-between-probes",
           OHMWRIGHT_TEXT("In circuit it reads above the {limit} that a good one has at most. The points were proved "
                          "dead and swapped probes agree: what lies between the probes is open or bad, since other "
                          "paths can only make it read lower.")},
          {"high-not-proved",
           OHMWRIGHT_TEXT("In circuit it reads above the {limit} that a good one has at most. Prove the points dead, "
                          "then swap the probes and read again.")},
          {"clears-nothing",
           OHMWRIGHT_TEXT("In circuit it does not read too high, but that clears nothing: another wire or a winding "
                          "beside an open lead reads low as well. Pull one of its ends off and read again.")},
          {"beside-others",
           OHMWRIGHT_TEXT("In circuit other parts lie beside it; what it reads alone or under load is what counts.")},
          {"not-comparable", OHMWRIGHT_TEXT("A reading in circuit without ratings has nothing to be compared with.")},
          {"no-in-circuit", OHMWRIGHT_TEXT("Not judged: no reading was taken in circuit.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
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

}  // namespace ohmwright::wiring
