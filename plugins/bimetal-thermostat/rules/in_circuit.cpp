#include "rules/in_circuit.hpp"

#include <algorithm>

#include <ohmwright/component/in_circuit.hpp>

#include "rules/good_part.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex {
  path_beside = InCircuitText::first_own,
  open_there,
};

bool is_state(const PreparedReading& reading) { return reading.measurand == contact_state; }

/// A path beside it can only lower the ohms: what reads a kilohm in circuit is no closed contact either. Compared with
/// a good one where its temperature is known.
bool is_comparable(const Scene& scene, const PreparedReading& reading) {
  return is_not_closed(contact_seen(reading)) && scene.ratings != nullptr &&
         reading.condition(part_temperature) != nullptr;
}

double may_be_open(const Scene& scene, const PreparedReading& reading) {
  return may_trip_below(scene.ratings->closing, *reading.condition(part_temperature), scene.evidence.sources());
}

/// It closed when it was read alone, or it carried its load.
ReadAlone what_it_reads_alone(const Scene& scene) {
  const auto& findings = scene.findings.findings();  // the drop was judged before
  if (std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
        return finding.rule == drop_under_load && finding.outcome == Outcome::within_limits;
      }))
    return ReadAlone::right;
  ReadAlone alone = ReadAlone::no;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_of_contact_alone(reading) || contact_seen(reading) != ContactSeen::closed) continue;
    if (is_lead_off(reading)) return ReadAlone::right;
    alone = ReadAlone::unstated;
  }
  return alone;
}

/// The words of a contact for what the reading does not decide.
TextIndex own_text(const PreparedReading& reading, TextIndex text) {
  const ContactSeen seen = contact_seen(reading);
  if (seen == ContactSeen::closed) return InCircuitText::clears_nothing;
  if (text == InCircuitText::not_comparable) return seen == ContactSeen::open ? text : TextIndex{path_beside};
  if (text != InCircuitText::clears_nothing && text != InCircuitText::beside_others) return text;
  return seen == ContactSeen::open ? open_there : path_beside;
}

}  // namespace

RuleDescriptor describe_in_circuit() {
  return in_circuit_rule(
      {.everything_between_probes =
           OHMWRIGHT_TEXT("Not closed in circuit at {temperature}, where a good one is (from {closes_by} down). The "
                          "points carry no voltage and swapped probes agree, so something between the probes is open: "
                          "the thermostat, its lead, a splice or the connector."),
       .clears_nothing =
           OHMWRIGHT_TEXT("It looks closed in circuit, which decides nothing: another path beside it can do that. Lift "
                          "one of its leads and read again."),
       .high_not_proved =
           OHMWRIGHT_TEXT("Not closed in circuit at {temperature}, where a good one is (from {closes_by} down). A "
                          "charged capacitor or a powered board can do that too: prove the points dead, then swap the "
                          "probes."),
       .swapped_differ =
           OHMWRIGHT_TEXT("Not closed in circuit at {temperature}, where a good one is (from {closes_by} down), but "
                          "with the probes swapped it reads something else, which no contact does: volts stand on the "
                          "points, or a semiconductor lies beside it. Prove the points dead and read it alone, a lead "
                          "off."),
       .right_alone =
           OHMWRIGHT_TEXT("Not closed in circuit at {temperature}, though it was closed when it was read alone or "
                          "carried its load, and that counts: look at the lead, splice or connector between it and the "
                          "probes."),
       .right_where_unstated =
           OHMWRIGHT_TEXT("Not closed in circuit at {temperature}, but another time it was, and of that reading it was "
                          "not said whether a lead was off. If one was, look at the lead, splice or connector between "
                          "it and the probes; if none was, a contact comes and goes."),
       .not_comparable =
           OHMWRIGHT_TEXT("OL in circuit: it is open. Whether it should be, only its rating and its temperature "
                          "tell.")},
      {
          {"path-beside",
           OHMWRIGHT_TEXT("{ohms} in circuit: not OL, but that does not mean closed. An open thermostat can read "
                          "like that through what lies beside it, such as timer motor and heater. Lift one of its "
                          "leads and read again.")},
          {"open-there",
           OHMWRIGHT_TEXT("OL in circuit at {temperature}: it is open, for a path beside it could only have lowered "
                          "the ohms. There a good one may be open.")},
      });
}

void judge_in_circuit(const Scene& scene) {
  const auto see = [&](const PreparedReading& reading) -> std::optional<SeenInCircuit> {
    if (!is_comparable(scene, reading)) return std::nullopt;
    SeenInCircuit seen;
    if (scene.ratings->promises_trip_points()) seen.reads_so_high = may_be_open(scene, reading);
    seen.read_alone = what_it_reads_alone(scene);
    return seen;
  };
  const auto tell_contact = [&](const PreparedReading& reading, Finding& finding) {
    finding.text = own_text(reading, finding.text);
    tell(finding, "ohms", finding.measured ? *finding.measured : ohms(reading.range_full_scale));
    if (!is_comparable(scene, reading)) return;
    finding.probability = may_be_open(scene, reading);
    tell(finding, "temperature", degrees(reading.condition(part_temperature)->value()));
    tell(finding, "closes_by", AnyQuantity(scene.ratings->closing.lowest()));
  };
  ohmwright::judge_in_circuit(
      {.rule = in_circuit, .is_of_it = is_state, .swapped = contact_state_swapped, .see = see, .tell = tell_contact},
      scene.evidence, scene.settings, scene.findings);
}

}  // namespace ohmwright::bimetal_thermostat
