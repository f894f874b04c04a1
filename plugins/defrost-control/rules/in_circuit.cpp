#include "rules/in_circuit.hpp"

namespace ohmwright::defrost_control {

namespace {

enum Text : TextIndex {
  contact_open_when_due,
  open_not_proved,
  open_means_nothing,
  never_closed,
  few_ohms,
  motor_open,
  motor_beside_others,
  no_in_circuit,
};

/// So few ohms are no timer motor and no heater, but a compressor's winding, or a closed contact (common practice, no
/// source) [ohm].
constexpr double few_up_to_ohms = 15.0;
/// More than this from line to neutral, and no motor lies there (common practice, no source) [ohm].
constexpr double highest_of_any_motor = 200e3;

struct Told {
  Outcome outcome;
  Text text;
};

/// Whether the contact has to be closed at that position of a cam.
bool is_due(const PreparedReading& reading) {
  const PlaceIndex place = place_of(reading);
  return (reading.measurand == defrost_contact && place == in_defrost) ||
         (reading.measurand == run_contact && place == in_run);
}

Told of_contact(const Scene& scene, const PreparedReading& reading) {
  const ContactSeen seen = contact_seen(reading);
  if (!is_not_closed(seen)) return {Outcome::undecided, never_closed};
  if (!is_due(reading) || !scene.is_timer()) return {Outcome::undecided, open_means_nothing};
  const bool proved = reading.supply == Supply::proved_dead;
  return proved ? Told{Outcome::out_of_limits, contact_open_when_due} : Told{Outcome::undecided, open_not_proved};
}

Told of_motor(const Scene& scene, const PreparedReading& reading) {
  const bool open = reading.shown == Shown::contact_open ||
                    (reading.shown == Shown::over_range && reading.range_full_scale > highest_of_any_motor);
  if (open && scene.is_timer())
    return reading.supply == Supply::proved_dead ? Told{Outcome::out_of_limits, motor_open}
                                                 : Told{Outcome::undecided, open_not_proved};
  const bool few = reading.shown == Shown::value && reading.value.value() <= few_up_to_ohms;
  return {Outcome::undecided, few ? few_ohms : motor_beside_others};
}

bool is_of_this_rule(const PreparedReading& reading) {
  return (is_of_contact(reading) || reading.measurand == motor) && is_in_circuit(reading) && !is_live(reading);
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
          {"contact-open-when-due",
           OHMWRIGHT_TEXT(
               "In circuit the contact that has to be closed in this position does not conduct, and the points "
               "were proved dead: it is open. What lies beside it can only make it look closed.")},
          {"open-not-proved", OHMWRIGHT_TEXT("In circuit it does not conduct. Prove the points dead, and read again: a "
                                             "charged capacitor or a live board can make it look so.")},
          {"open-means-nothing", OHMWRIGHT_TEXT("In circuit the contact is not closed; in that position, or on a board "
                                                "without power, that is no fault.")},
          {"never-closed",
           OHMWRIGHT_TEXT(
               "In circuit few ohms do not mean closed: heater, thermostat, compressor and fan lie beside the "
               "contact. Pull its wire off and read again.")},
          {"few-ohms",
           OHMWRIGHT_TEXT(
               "From line to neutral only a few ohms: the compressor is connected. In run that is normal; in "
               "defrost it says that the run contact is closed too. Pull the wires off and read the "
               "contacts alone.")},
          {"motor-open",
           OHMWRIGHT_TEXT("Even in circuit nothing conducts from line to neutral, and the points were proved dead: the "
                          "timer motor, or its lead, is open.")},
          {"motor-beside-others",
           OHMWRIGHT_TEXT(
               "In circuit the timer motor has heater, compressor and fan beside it: this reading is not its "
               "own.")},
          {"no-in-circuit", OHMWRIGHT_TEXT("Not judged: nothing was read in circuit.")},
      }};
}

void judge_in_circuit(const Scene& scene) {
  bool judged = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_of_this_rule(reading)) continue;
    const Told told = reading.measurand == motor ? of_motor(scene, reading) : of_contact(scene, reading);
    Finding& finding = scene.findings.add(in_circuit, told.outcome, told.text);
    if (reading.shown == Shown::value) finding.measured = ohms(reading.value.value());
    judged = true;
  }
  if (!judged) scene.findings.add(in_circuit, Outcome::silent, no_in_circuit);
}

}  // namespace ohmwright::defrost_control
