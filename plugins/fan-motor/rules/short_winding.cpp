#include "rules/short_winding.hpp"

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex { shorted, connection_unstated, no_short, electronic, only_in_circuit, only_live, but_it_turns };

}  // namespace

RuleDescriptor describe_short() {
  return {
      "short",
      OHMWRIGHT_TEXT("Shorted winding"),
      false,
      can_condemn | can_be_undecided,
      "common practice, no source; two wires measure their contacts only below their own resistance",
      {
          {"shorted", OHMWRIGHT_TEXT("The reading of {displayed} lies within the test leads' own resistance: the "
                                     "winding or its leads are shorted.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("The reading of {displayed} lies within the test leads' own resistance, but it was not said "
                          "whether a lead was off: the short may lie elsewhere.")},
          {"no-short", OHMWRIGHT_TEXT("Not judged: no reading was as low as the test leads.")},
          {"electronic", OHMWRIGHT_TEXT("Not judged: an electronically commutated motor is never judged by ohms.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: the short was read in circuit, where it may lie beside the winding.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"but-it-turns",
           OHMWRIGHT_TEXT("The reading of {displayed} lies within the test leads' own resistance, and it was seen to "
                          "turn: no shorted winding does. One of the two is wrong: did the probes touch each other?")},
      }};
}

void judge_short(const Scene& scene) {
  const PreparedReading* found = nullptr;
  Text silence = no_short;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_of_a_winding(reading) || !is_within_leads(scene.ratings, reading)) continue;
    if (is_live(reading))
      silence = only_live;
    else if (is_in_circuit(reading))
      silence = only_in_circuit;
    else if (scene.is_electronic())
      silence = electronic;
    else if (found == nullptr || is_lead_off(reading))
      found = &reading;
  }
  if (found == nullptr) {
    scene.findings.add(short_winding, Outcome::silent, silence);
    return;
  }
  const bool turns = is_seen_turning(scene);
  const bool alone = is_lead_off(*found) && !turns;
  const Text undecided_text = turns ? but_it_turns : connection_unstated;
  Finding& finding = scene.findings.add(short_winding, alone ? Outcome::out_of_limits : Outcome::undecided,
                                        alone ? shorted : undecided_text);
  finding.holds_back = turns;
  if (alone) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  tell(finding, "displayed", ohms(found->displayed));
}

}  // namespace ohmwright::fan_motor
