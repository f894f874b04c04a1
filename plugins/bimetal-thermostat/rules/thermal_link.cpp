#include "rules/thermal_link.hpp"

#include <algorithm>

#include <ohmwright/component/repeated_readings.hpp>

#include "rules/in_circuit.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex {
  link_closed,
  link_open,
  closed_connection_unstated,
  closed_in_circuit,
  open_in_circuit,
  poor_link,
  two_leads_only,
  not_read,
  no_link,
  only_live,
  link_jumps,
  link_right_alone,
};

struct Said {
  Outcome outcome;
  Text text;
};

bool is_closed_alone(const Evidence& evidence) {
  const auto readings = evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [](const PreparedReading& reading) {
    return reading.measurand == link_state && !is_live(reading) && is_lead_off(reading) &&
           contact_seen(reading) == ContactSeen::closed;
  });
}

/// What one reading across the link's own leads says; the graver outcome has the smaller number.
Said said_by(const Evidence& evidence, const PreparedReading& reading) {
  if (repeats_jump_past_digits(evidence, reading)) return {Outcome::undecided, link_jumps};
  const ContactSeen seen = contact_seen(reading);
  if (is_not_closed(seen)) {
    if (is_in_circuit(reading) && reading.supply != Supply::proved_dead) return {Outcome::undecided, open_in_circuit};
    if (is_in_circuit(reading) && is_closed_alone(evidence)) return {Outcome::undecided, link_right_alone};
    return {Outcome::out_of_limits, link_open};
  }
  constexpr double good_up_to_ohms = 1.0;  // two wires measure their own contacts below that
  const bool good = reading.shown != Shown::value || reading.value.value() <= good_up_to_ohms;
  if (!good) return {Outcome::undecided, poor_link};
  if (is_in_circuit(reading)) return {Outcome::undecided, closed_in_circuit};
  if (!is_lead_off(reading)) return {Outcome::undecided, closed_connection_unstated};
  return {Outcome::within_limits, link_closed};
}

int gravity(Said said) {
  if (said.outcome == Outcome::out_of_limits) return 3;
  if (said.text == link_right_alone) return 2;
  return said.outcome == Outcome::within_limits ? 1 : 0;  // one clean reading outweighs one that tells nothing
}

}  // namespace

RuleDescriptor describe_thermal_link() {
  return {
      "thermal-link",
      OHMWRIGHT_TEXT("Thermal link"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "IEC 60691 (a thermal link opens once, within +0/-10 K of its functioning temperature; from memory)",
      {
          {"link-closed", OHMWRIGHT_TEXT("The thermal link is closed across its own leads, as it has to be.")},
          {"link-open",
           OHMWRIGHT_TEXT("The thermal link is open. It opens once and for good, and always for a reason: the part was "
                          "hotter than it may ever be. Never bridge it.")},
          {"closed-connection-unstated",
           OHMWRIGHT_TEXT("The thermal link looks closed, but it was not said that one of its leads was off: another "
                          "path can look closed.")},
          {"closed-in-circuit",
           OHMWRIGHT_TEXT("The thermal link looks closed in circuit, which decides nothing. Lift one of its leads and "
                          "read again.")},
          {"open-in-circuit",
           OHMWRIGHT_TEXT("The thermal link reads open in circuit. Prove the points dead and read again, then it is "
                          "certain.")},
          {"poor-link",
           OHMWRIGHT_TEXT("The thermal link reads {ohms}: too much for a good one, too little for an open one. Clean "
                          "the terminals and read again.")},
          {"two-leads-only",
           OHMWRIGHT_TEXT("This part has two leads: its link lies in series inside and cannot be read alone.")},
          {"not-read", OHMWRIGHT_TEXT("Not judged: the thermal link was not read across its own leads (link=…).")},
          {"no-link", OHMWRIGHT_TEXT("Not judged: the ratings name no thermal link.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"link-jumps",
           OHMWRIGHT_TEXT(
               "The repeated ohms of the thermal link jump, so their mean is none of them: a crimp of it comes and "
               "goes, or the probes did. Unplugged and proved dead, clip them on and move its leads.")},
          {"link-right-alone",
           OHMWRIGHT_TEXT("In circuit the thermal link reads open, though it is closed when it is read alone, and that "
                          "counts: look at the lead, splice or connector between it and the probes.")},
      },
      /*condemns_for_good=*/true};
}

void judge_thermal_link(const Scene& scene) {
  std::optional<Said> gravest;
  const PreparedReading* spoke = nullptr;
  const bool pair = scene.ratings != nullptr && scene.ratings->is_two_wire_pair();
  const bool has_link = scene.ratings != nullptr && scene.ratings->link;
  Text silence = has_link ? (pair ? two_leads_only : not_read) : no_link;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != link_state || contact_seen(reading) == ContactSeen::nothing) continue;
    if (is_live(reading)) {
      silence = only_live;
      continue;
    }
    const Said said = pair ? Said{Outcome::undecided, two_leads_only} : said_by(scene.evidence, reading);
    if (gravest && gravity(said) <= gravity(*gravest)) continue;
    gravest = said;
    spoke = &reading;
  }
  if (!gravest) {
    scene.findings.add(thermal_link, Outcome::silent, silence);
    return;
  }
  Finding& finding = scene.findings.add(thermal_link, gravest->outcome, gravest->text);
  if (spoke->shown == Shown::value) {
    finding.measured = ohms(spoke->value.value());
    tell(finding, "ohms", *finding.measured);
  }
  finding.holds_back = gravest->text == link_jumps;
  if (gravest->outcome != Outcome::out_of_limits) return;
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = 0.0;
}

}  // namespace ohmwright::bimetal_thermostat
