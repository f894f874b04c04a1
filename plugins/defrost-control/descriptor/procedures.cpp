#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::defrost_control {

namespace {

ProcedureDescriptor contacts_by_position(std::string_view id, std::string_view measurand, std::string_view title) {
  return {
      id,
      title,
      measurand,
      8.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the terminals of the control dead.")},
          {"note", OHMWRIGHT_TEXT("Photograph the wires. Find line, defrost, run and neutral by the diagram inside the "
                                  "appliance: their numbers differ.")},
          {"pull",
           OHMWRIGHT_TEXT("Pull its connector off. In circuit a contact that is not OL need not be closed: heater, "
                          "thermostat and compressor lie beside it.")},
          {"position", OHMWRIGHT_TEXT("Turn the shaft slowly, in its own direction only, until it clicks: the mark, or "
                                      "which contact closes, tells run from defrost. A board without power is at rest, "
                                      "and cannot be turned.")},
          {"read", OHMWRIGHT_TEXT("Lowest ohms range, leads shorted first. From line to defrost, and from line to run; "
                                  "then the same in the other position.")},
          {"refit", OHMWRIGHT_TEXT("Leave it in run, refit wires, covers and earth before you plug in.")},
      },
      {"disconnect-power", "prove-dead", "meter-category", "cam-live", "capacitor-charge"}};
}

ProcedureDescriptor motor_ohms() {
  return {
      "motor-ohms",
      OHMWRIGHT_TEXT("The timer motor's ohms"),
      "motor",
      6.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the terminals of the timer dead.")},
          {"pull", OHMWRIGHT_TEXT("Pull its connector off: compressor, fan and heater lie beside the motor.")},
          {"find", OHMWRIGHT_TEXT("Find the two ends of its motor by the diagram: line and neutral in most, but in "
                                  "some the motor hangs on the run terminal.")},
          {"read", OHMWRIGHT_TEXT("A range for tens of kilohms. Touch the two terminals, not your fingers, and note "
                                  "the ohms with the k, or OL with its range.")},
          {"temperature", OHMWRIGHT_TEXT("Note the temperature there, if it has not just run.")},
      },
      {"disconnect-power", "prove-dead", "meter-category", "cam-live"}};
}

ProcedureDescriptor output_in_a_defrost() {
  return {
      "output-in-a-defrost",
      OHMWRIGHT_TEXT("Volts at the defrost output, under load, live"),
      "output",
      12.0,
      {
          {"decide",
           OHMWRIGHT_TEXT("Go on only if you are qualified for live work, the heater's limit is proved and not "
                          "bridged, the coil is cold, and the drain is clear.")},
          {"place",
           OHMWRIGHT_TEXT("Unplugged, fix the volt probes from the defrost output to neutral, a clamp around the "
                          "wire to the heater, with everything connected, and stand clear.")},
          {"force",
           OHMWRIGHT_TEXT("Plug in and force a defrost by its own program, or with the timer turned to defrost "
                          "before: for ten minutes at most, and stay with it. Never bridge the output.")},
          {"read", OHMWRIGHT_TEXT("Note volts, amperes and the volts of the line at the same moment. Without amperes "
                                  "the volts prove nothing: a solid-state switch leaks.")},
          {"end",
           OHMWRIGHT_TEXT("End the defrost, read the output once more: it has to be off. Unplug, prove dead, take "
                          "the instruments off.")},
      },
      {"live-measurement", "meter-category", "forced-defrost", "low-voltage-side-live", "flammable-refrigerant",
       "moving-parts", "hot-surface", "water-and-mains", "do-not-bridge"}};
}

ProcedureDescriptor drop_under_load() {
  return {
      "drop-under-load",
      OHMWRIGHT_TEXT("Voltage drop of the contact under load, live"),
      "drop",
      10.0,
      {
          {"decide",
           OHMWRIGHT_TEXT("Go on only if you are qualified for live work, the heater's limit is proved and not "
                          "bridged, the coil is cold, and the drain is clear.")},
          {"meter", OHMWRIGHT_TEXT("Unplugged, fix the probes on line and defrost, at the control's own terminals, "
                                   "and a clamp around the wire to the heater. Start on the range of the line: if the "
                                   "contact is open, all of it is there.")},
          {"force", OHMWRIGHT_TEXT("Force a defrost, for ten minutes at most, and stay with it.")},
          {"read",
           OHMWRIGHT_TEXT("Go down to a range that shows millivolts; note volts and amperes at the same moment.")},
          {"end", OHMWRIGHT_TEXT("Unplug, prove dead, take the probes off, refit everything.")},
      },
      {"live-measurement", "meter-category", "forced-defrost", "low-voltage-side-live", "flammable-refrigerant",
       "moving-parts", "hot-surface", "water-and-mains", "do-not-bridge"}};
}

ProcedureDescriptor volts_at_sensor_connector() {
  return {
      "volts-at-sensor-connector",
      OHMWRIGHT_TEXT("Volts at the pulled sensor connector, live"),
      "sensor_supply",
      8.0,
      {
          {"decide",
           OHMWRIGHT_TEXT("Go on only if you are qualified for live work: the few volts there may stand on the "
                          "line.")},
          {"pull", OHMWRIGHT_TEXT("Unplug, prove dead, wait until the board has discharged, and pull the sensor's "
                                  "connector off the board.")},
          {"place", OHMWRIGHT_TEXT("Fix thin insulated probes on the board's two pins, direct volts, where they cannot "
                                   "slip. Battery meter only.")},
          {"read", OHMWRIGHT_TEXT("Plug in, hands off, and note the volts.")},
          {"stand-in", OHMWRIGHT_TEXT("Where the board's own resistor is known: unplug, put a measured resistor of the "
                                      "sensor's ohms across the pins, and read again (--stand-in).")},
          {"end", OHMWRIGHT_TEXT("Unplug, prove dead, take the probes off, plug the sensor in.")},
      },
      {"live-measurement", "sensor-pins-live", "low-voltage-side-live", "meter-category", "capacitor-charge"}};
}

ProcedureDescriptor watch_it_move_on() {
  return {
      "watch-it-move-on",
      OHMWRIGHT_TEXT("Whether it moves on, by the watch"),
      "advance",
      30.0,
      {
          {"set",
           OHMWRIGHT_TEXT("Unplugged, turn the timer until it just clicks into defrost, and mark its shaft. A board "
                          "is told to defrost by its own program.")},
          {"power", OHMWRIGHT_TEXT("Refit the covers, plug in, note the time. Many timers have power only while the "
                                   "thermostat calls for cold.")},
          {"wait", OHMWRIGHT_TEXT("Wait for the click, or for the compressor to start, and note the minutes. Stay with "
                                  "it: the heater is on. If it has not moved, note how long you waited.")},
      },
      {"disconnect-power", "cam-live", "forced-defrost", "flammable-refrigerant", "moving-parts", "water-and-mains",
       "do-not-bridge"}};
}

ProcedureDescriptor between_defrosts(std::string_view id, std::string_view measurand, std::string_view title) {
  return {
      id,
      title,
      measurand,
      20.0,
      {
          {"log", OHMWRIGHT_TEXT("Leave a logger or a plug-in power meter on it for days. The heater's step shows each "
                                 "defrost.")},
          {"count", OHMWRIGHT_TEXT("Add up the hours that the compressor ran from the end of one defrost to the start "
                                   "of the next. Leave out the first after a power cut or a long open door.")},
          {"clock", OHMWRIGHT_TEXT("Where only the clock is known, note what share of the time it ran.")},
      },
      {"disconnect-power", "water-and-mains"}};
}

}  // namespace

std::vector<ProcedureDescriptor> describe_procedures() {
  return {contacts_by_position("contacts-by-position", "defrost_contact",
                               OHMWRIGHT_TEXT("The contact to the heater, wires off, in both positions")),
          contacts_by_position("run-contact-by-position", "run_contact",
                               OHMWRIGHT_TEXT("The contact to the compressor, wires off, in both positions")),
          motor_ohms(),
          output_in_a_defrost(),
          drop_under_load(),
          volts_at_sensor_connector(),
          watch_it_move_on(),
          between_defrosts("time-between-defrosts", "interval",
                           OHMWRIGHT_TEXT("Compressor time between two defrosts, from a log")),
          between_defrosts("clock-between-defrosts", "interval_by_clock",
                           OHMWRIGHT_TEXT("Clock time between two defrosts, from a log"))};
}

}  // namespace ohmwright::defrost_control
