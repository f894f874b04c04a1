#include "rules/in_circuit.hpp"

#include <algorithm>

#include <ohmwright/verdict/decision.hpp>

#include "rules/good_part.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex {
  open_between_probes,
  open_not_proved,
  open_there,
  open_without_temperature,
  looks_closed,
  path_beside,
  no_in_circuit,
  only_live,
};

void judge_one(const Scene& scene, const PreparedReading& reading) {
  const ContactSeen seen = contact_seen(reading);
  const Estimate* temperature = reading.condition(part_temperature);
  Outcome outcome = Outcome::undecided;
  Text text = seen == ContactSeen::closed ? looks_closed : path_beside;
  double may_be_open = 1.0;
  // A path beside it can only lower the ohms: what reads a kilohm in circuit is no closed contact either.
  const bool comparable = is_not_closed(seen) && scene.ratings != nullptr && temperature != nullptr;
  if (seen == ContactSeen::open) text = comparable ? open_there : open_without_temperature;
  if (comparable) {
    may_be_open = may_trip_below(scene.ratings->closing, *temperature, scene.evidence.sources());
    const bool too_cold = decide_observed(may_be_open, scene.settings.confidence) == Outcome::out_of_limits;
    if (too_cold && scene.ratings->promises_trip_points()) {
      const bool proved = is_proved(scene, reading);
      text = proved ? open_between_probes : open_not_proved;
      if (proved) outcome = Outcome::out_of_limits;
    }
  }
  Finding& finding = scene.findings.add(in_circuit, outcome, text);
  if (reading.shown == Shown::value) {
    finding.measured = ohms(reading.value.value());
    tell(finding, "ohms", *finding.measured);
  } else {
    tell(finding, "ohms", ohms(reading.range_full_scale));
  }
  if (!comparable) return;
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = may_be_open;
  tell(finding, "temperature", degrees(temperature->value()));
  tell(finding, "closes_by", AnyQuantity(scene.ratings->closing.lowest()));
}

}  // namespace

bool is_proved(const Scene& scene, const PreparedReading& reading) {
  if (reading.supply != Supply::proved_dead) return false;
  const auto readings = scene.evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [](const PreparedReading& other) {
    return other.measurand == contact_state_swapped && !is_live(other) && is_not_closed(contact_seen(other));
  });
}

RuleDescriptor describe_in_circuit() {
  return {
      "in-circuit",
      OHMWRIGHT_TEXT("Readings in circuit"),
      false,
      can_condemn | can_be_undecided,
      "Kirchhoff: a passive path beside a part can only lower the resistance at its own terminals",
      {
          {"open-between-probes",
           OHMWRIGHT_TEXT("Not closed in circuit at {temperature}, where a good one is (from {closes_by} down). The "
                          "points carry no voltage and swapped probes agree, so something between the probes is open: "
                          "the thermostat, its lead, a splice or the connector.")},
          {"open-not-proved",
           OHMWRIGHT_TEXT("Not closed in circuit at {temperature}, where a good one is (from {closes_by} down). A "
                          "charged capacitor or a powered board can do that too: prove the points dead, then swap the "
                          "probes.")},
          {"open-there",
           OHMWRIGHT_TEXT("OL in circuit at {temperature}: it is open, for a path beside it could only have lowered "
                          "the ohms. There a good one may be open.")},
          {"open-without-temperature",
           OHMWRIGHT_TEXT(
               "OL in circuit: it is open. Whether it should be, only its rating and its temperature tell.")},
          {"looks-closed",
           OHMWRIGHT_TEXT("It looks closed in circuit, which decides nothing: another path beside it can do that. Lift "
                          "one of its leads and read again.")},
          {"path-beside",
           OHMWRIGHT_TEXT("{ohms} in circuit: not OL, but that does not mean closed. An open thermostat can read "
                          "like that through what lies beside it, such as timer motor and heater. Lift one of its "
                          "leads and read again.")},
          {"no-in-circuit", OHMWRIGHT_TEXT("Not judged: no reading was taken in circuit.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
      }};
}

void judge_in_circuit(const Scene& scene) {
  bool judged = false;
  Text silence = no_in_circuit;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != contact_state || !is_in_circuit(reading)) continue;
    if (is_live(reading)) {
      silence = only_live;
      continue;
    }
    judge_one(scene, reading);
    judged = true;
  }
  if (!judged) scene.findings.add(in_circuit, Outcome::silent, silence);
}

}  // namespace ohmwright::bimetal_thermostat
