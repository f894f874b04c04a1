#include "rules/short_sensor.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex { shorted, connection_unstated, no_short, only_in_circuit, only_live, range_cannot_tell };

const PreparedReading* on_a_coarse_range(const Scene& scene) {
  for (const PreparedReading& reading : scene.evidence.readings())
    if (range_hides_a_short(reading) && !is_live(reading) && !is_in_circuit(reading)) return &reading;
  return nullptr;
}

}  // namespace

RuleDescriptor describe_short() {
  return {
      "short",
      OHMWRIGHT_TEXT("Shorted sensor"),
      false,
      can_condemn | can_be_undecided,
      "common practice, no source; below 1 ohm two wires measure their contacts only",
      {
          {"shorted",
           OHMWRIGHT_TEXT("The reading of {displayed} lies within the test leads' own resistance: the sensor or its "
                          "lead is shorted. The control cannot see the coil: it may cut every defrost short, and it "
                          "may show an error.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("The reading of {displayed} lies within the test leads' own resistance, but it was not said "
                          "whether the connector was off: the short may lie elsewhere.")},
          {"no-short", OHMWRIGHT_TEXT("Not judged: no reading was as low as the test leads.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: the short was read in circuit, where it may lie beside the sensor.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"range-cannot-tell",
           OHMWRIGHT_TEXT(
               "The meter shows {displayed} on the range of {range}, where it may be off by {doubt}: that range cannot "
               "tell a short from some hundred ohms. The lowest range of ohms can.")},
      }};
}

void judge_short(const Scene& scene) {
  const PreparedReading* found = nullptr;
  Text silence = no_short;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || !is_within_leads(reading)) continue;
    if (is_live(reading)) {
      silence = only_live;
    } else if (is_in_circuit(reading)) {
      silence = only_in_circuit;
    } else if (found == nullptr || reading.connection == Connection::lead_off) {
      found = &reading;
    }
  }
  if (const PreparedReading* coarse = found == nullptr ? on_a_coarse_range(scene) : nullptr) {
    Finding& finding = scene.findings.add(short_sensor, Outcome::undecided, range_cannot_tell);
    finding.holds_back = true;
    tell(finding, "displayed", ohms(coarse->displayed));
    tell(finding, "range", ohms(coarse->range_full_scale));
    tell(finding, "doubt", ohms(coarse->meter_half_width));
    return;
  }
  if (found == nullptr) {
    scene.findings.add(short_sensor, Outcome::silent, silence);
    return;
  }
  const bool alone = found->connection == Connection::lead_off;
  Finding& finding = scene.findings.add(short_sensor, alone ? Outcome::out_of_limits : Outcome::undecided,
                                        alone ? shorted : connection_unstated);
  if (alone) {  // no sensor of any class comes near 1 ohm between -40 and 60 degC
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  tell(finding, "displayed", ohms(found->displayed));
}

}  // namespace ohmwright::defrost_sensor
