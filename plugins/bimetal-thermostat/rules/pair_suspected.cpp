#include "rules/pair_suspected.hpp"

#include "rules/good_part.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex { both_suspected, link_closed_then, not_open_cold, no_pair };

}  // namespace

RuleDescriptor describe_pair_suspected() {
  return {
      "pair-suspected",
      OHMWRIGHT_TEXT("Thermostat or link of a two-wire pair"),
      false,
      can_be_undecided,
      "common practice, no source: two switches in series behind two wires cannot be told apart",
      {
          {"both-suspected",
           OHMWRIGHT_TEXT("Open at {temperature}, and it holds a thermal link behind the same two wires: either the "
                          "thermostat is stuck open or the link has opened. From outside nobody can tell, so look for "
                          "what may have overheated it before you fit a new one.")},
          {"link-closed-then",
           OHMWRIGHT_TEXT(
               "Open at {temperature}, but closed in a later reading: its link is whole, and the thermostat itself "
               "sticks.")},
          {"not-open-cold", OHMWRIGHT_TEXT("Not asked: the pair was not found open where it has to be closed.")},
          {"no-pair", OHMWRIGHT_TEXT("Not asked: the ratings name no thermostat and link behind two wires.")},
      }};
}

void judge_pair_suspected(const Scene& scene) {
  if (scene.ratings == nullptr || !scene.ratings->is_two_wire_pair()) {
    scene.findings.add(pair_suspected, Outcome::silent, no_pair);
    return;
  }
  const PreparedReading* open_cold = nullptr;
  bool closed_after = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_of_contact_alone(reading)) continue;
    const Estimate* temperature = reading.condition(part_temperature);
    const ContactSeen seen = contact_seen(reading);
    closed_after = closed_after || (seen == ContactSeen::closed && scene.is_surely_of_contact(reading));
    if (!is_not_closed(seen) || temperature == nullptr) continue;
    const double may_be_open = may_trip_below(scene.ratings->closing, *temperature, scene.evidence.sources());
    if (!scene.sure(1.0 - may_be_open)) continue;
    open_cold = &reading;
    closed_after = false;
  }
  if (open_cold == nullptr) {
    scene.findings.add(pair_suspected, Outcome::silent, not_open_cold);
    return;
  }
  Finding& finding =
      scene.findings.add(pair_suspected, Outcome::undecided, closed_after ? link_closed_then : both_suspected);
  tell(finding, "temperature", degrees(open_cold->condition(part_temperature)->value()));
}

}  // namespace ohmwright::bimetal_thermostat
