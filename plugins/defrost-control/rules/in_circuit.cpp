#include "rules/in_circuit.hpp"

#include <ohmwright/component/in_circuit.hpp>

namespace ohmwright::defrost_control {

namespace {

enum Text : TextIndex {
  open_means_nothing = InCircuitText::first_own,
  few_ohms,
  motor_open,
  motor_right_alone,
  motor_right_where_unstated,
  motor_beside_others,
};

/// So few ohms are no timer motor and no heater, but a compressor's winding, or a closed contact (common practice, no
/// source) [ohm].
constexpr double few_up_to_ohms = 15.0;
/// More than this from line to neutral, and no motor lies there (common practice, no source) [ohm].
constexpr double highest_of_any_motor = 200e3;

bool is_of_contact_or_motor(const PreparedReading& reading) {
  return is_of_contact(reading) || reading.measurand == motor;
}

/// Whether the contact has to be closed at that position of a cam.
bool is_due(const PreparedReading& reading) {
  const PlaceIndex place = place_of(reading);
  return (reading.measurand == defrost_contact && place == in_defrost) ||
         (reading.measurand == run_contact && place == in_run);
}

bool conducts_nothing(const PreparedReading& reading) {
  if (is_of_contact(reading)) return is_not_closed(contact_seen(reading));
  return reading.shown == Shown::contact_open ||
         (reading.shown == Shown::over_range && reading.range_full_scale > highest_of_any_motor);
}

/// Closed at the same position when it was read alone.
ReadAlone contact_alone(const Scene& scene, const PreparedReading& reading) {
  const ContactIndex contact = reading.measurand == defrost_contact ? of_defrost : of_run;
  const ContactState& state = scene.grid.at(contact, place_of(reading));
  if (!state.is_closed()) return ReadAlone::no;
  return state.lead_off ? ReadAlone::right : ReadAlone::unstated;
}

ReadAlone motor_alone(const Scene& scene) {
  ReadAlone alone = ReadAlone::no;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != motor || is_in_circuit(reading) || is_live(reading) || reading.shown != Shown::value)
      continue;
    if (is_lead_off(reading)) return ReadAlone::right;
    alone = ReadAlone::unstated;
  }
  return alone;
}

TextIndex text_of_contact(const Scene& scene, const PreparedReading& reading, TextIndex text) {
  if (text == InCircuitText::beside_others) return text;
  if (!conducts_nothing(reading)) return InCircuitText::clears_nothing;
  return is_due(reading) && scene.is_timer() ? text : TextIndex{open_means_nothing};
}

TextIndex text_of_motor(const PreparedReading& reading, TextIndex text) {
  switch (text) {
    case InCircuitText::everything_between_probes:
      return motor_open;
    case InCircuitText::high_not_proved:
    case InCircuitText::beside_others:
      return text;
    case InCircuitText::right_alone:
      return motor_right_alone;
    case InCircuitText::right_where_unstated:
      return motor_right_where_unstated;
    default:
      break;
  }
  const bool few = reading.shown == Shown::value && reading.value.value() <= few_up_to_ohms;
  return few ? few_ohms : motor_beside_others;
}

}  // namespace

RuleDescriptor describe_in_circuit() {
  return in_circuit_rule(
      {.everything_between_probes =
           OHMWRIGHT_TEXT("In circuit the contact that has to be closed in this position does not conduct, and the "
                          "points were proved dead: it is open. What lies beside it can only make it look closed."),
       .clears_nothing =
           OHMWRIGHT_TEXT("In circuit few ohms do not mean closed: heater, thermostat, compressor and fan lie beside "
                          "the contact. Pull its wire off and read again."),
       .high_not_proved =
           OHMWRIGHT_TEXT("In circuit it does not conduct. Prove the points dead, and read again: a charged capacitor "
                          "or a live board can make it look so."),
       .right_alone =
           OHMWRIGHT_TEXT("In circuit the contact that has to be closed in this position does not conduct, though it "
                          "was closed when it was read alone, and that counts: look at its terminals, and at the "
                          "splice or connector between it and the probes."),
       .right_where_unstated =
           OHMWRIGHT_TEXT("In circuit the contact that has to be closed in this position does not conduct, but another "
                          "time it did, and of that reading it was not said whether its wires were off. If they were, "
                          "look at its terminals and at what lies between it and the probes; if not, a contact comes "
                          "and goes.")},
      {
          {"open-means-nothing",
           OHMWRIGHT_TEXT("In circuit the contact is not closed; in that position, or on a board without power, that "
                          "is no fault.")},
          {"few-ohms",
           OHMWRIGHT_TEXT("From line to neutral only a few ohms: the compressor is connected. In run that is normal; "
                          "in defrost it says that the run contact is closed too. Pull the wires off and read the "
                          "contacts alone.")},
          {"motor-open",
           OHMWRIGHT_TEXT("Even in circuit nothing conducts from line to neutral, and the points were proved dead: the "
                          "timer motor, or its lead, is open.")},
          {"motor-right-alone",
           OHMWRIGHT_TEXT("In circuit nothing conducts from line to neutral, though the timer motor did when it was "
                          "read alone, and that counts: look at its lead, splice or connector.")},
          {"motor-right-where-unstated",
           OHMWRIGHT_TEXT("In circuit nothing conducts from line to neutral, but another time the timer motor did, and "
                          "of that reading it was not said whether its wires were off. If they were, look at its lead, "
                          "splice or connector; if not, a joint comes and goes.")},
          {"motor-beside-others",
           OHMWRIGHT_TEXT("In circuit the timer motor has heater, compressor and fan beside it: this reading is not "
                          "its own.")},
      });
}

void judge_in_circuit(const Scene& scene) {
  const auto see = [&](const PreparedReading& reading) -> std::optional<SeenInCircuit> {
    const bool of_motor = reading.measurand == motor;
    const bool wrong = scene.is_timer() && conducts_nothing(reading) && (of_motor || is_due(reading));
    return SeenInCircuit{.reads_so_high = wrong ? 0.0 : 1.0,
                         .read_alone = of_motor ? motor_alone(scene) : contact_alone(scene, reading)};
  };
  const auto take_own_text = [&](const PreparedReading& reading, Finding& finding) {
    finding.text = reading.measurand == motor ? text_of_motor(reading, finding.text)
                                              : text_of_contact(scene, reading, finding.text);
  };
  ohmwright::judge_in_circuit(
      {.rule = in_circuit, .is_of_it = is_of_contact_or_motor, .see = see, .tell = take_own_text}, scene.evidence,
      scene.settings, scene.findings);
}

bool asks_to_read_alone(const Scene& scene) {
  return ohmwright::asks_to_read_alone(scene.findings, in_circuit, {motor_right_alone});
}

}  // namespace ohmwright::defrost_control
