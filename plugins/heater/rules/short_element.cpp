#include "rules/short_element.hpp"

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  shorted,
  connection_unstated,
  no_short,
  low_by_rating,
  only_in_circuit,
  only_live,
  but_it_draws
};

/// Good heaters below this read like their leads on a pocket meter, and are left to the clamp (2.9 kW at 120 V) [ohm].
constexpr double least_told_from_leads = 3.0;

}  // namespace

RuleDescriptor describe_short() {
  return {
      "short",
      OHMWRIGHT_TEXT("Shorted element"),
      false,
      can_condemn | can_be_undecided,
      "common practice, no source; two wires measure their contacts only below their own resistance",
      {
          {"shorted",
           OHMWRIGHT_TEXT("The reading of {displayed} lies within the test leads' own resistance: the element or its "
                          "wiring is shorted, and the fuse or breaker goes at once.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("The reading of {displayed} lies within the test leads' own resistance, but it was not said "
                          "whether a lead was off: the short may lie elsewhere.")},
          {"no-short", OHMWRIGHT_TEXT("Not judged: no reading was as low as the test leads.")},
          {"low-by-rating",
           OHMWRIGHT_TEXT("Not judged: a good one of these ratings reads hardly more than the leads; use a clamp under "
                          "load.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: the short was read in circuit, where it may lie beside the element.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"but-it-draws",
           OHMWRIGHT_TEXT(
               "The reading of {displayed} lies within the test leads' own resistance, and amperes were read "
               "through it while it was fed: a shorted one blows its fuse at once. One of the two is wrong: "
               "did the probes touch each other?")},
      }};
}

void judge_short(const Scene& scene) {
  const PreparedReading* found = nullptr;
  Text silence = no_short;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || !is_within_leads(scene.ratings, reading)) continue;
    if (is_live(reading))
      silence = only_live;
    else if (is_in_circuit(reading))
      silence = only_in_circuit;
    else if (scene.ratings != nullptr && scene.ratings->cold().lower < least_told_from_leads)
      silence = low_by_rating;
    else if (found == nullptr || is_lead_off(reading))
      found = &reading;
  }
  if (found == nullptr) {
    scene.findings.add(short_element, Outcome::silent, silence);
    return;
  }
  const bool draws = is_seen_drawing(scene);
  const bool alone = is_lead_off(*found) && !draws;
  const Text undecided_text = draws ? but_it_draws : connection_unstated;
  Finding& finding = scene.findings.add(short_element, alone ? Outcome::out_of_limits : Outcome::undecided,
                                        alone ? shorted : undecided_text);
  finding.holds_back = draws;
  if (alone) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  tell(finding, "displayed", ohms(found->displayed));
}

}  // namespace ohmwright::heater
