#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::fan_motor {

namespace {

ProcedureDescriptor ohms_of(std::string_view id, std::string_view measurand, std::string_view title) {
  return {
      id,
      title,
      measurand,
      8.0,
      {
          {"unplug",
           OHMWRIGHT_TEXT("Unplug the appliance and prove the points dead. Discharge the run capacitor through "
                          "a resistor and confirm below 34 V.")},
          {"plug", OHMWRIGHT_TEXT("Pull the motor's plug: the control lies beside it.")},
          {"stand", OHMWRIGHT_TEXT("Let it stand until it is as warm as its surroundings, and note that temperature.")},
          {"probes",
           OHMWRIGHT_TEXT("Lowest ohms range that holds it. Short the probes and note what the leads read (--leads).")},
          {"read", OHMWRIGHT_TEXT("Touch the bare contacts and note the ohms, or OL; then from each to the frame.")},
          {"spin", OHMWRIGHT_TEXT("Flick its wheel and note how long it coasts.")},
      },
      {"disconnect-power", "prove-dead", "capacitor-charge", "meter-category", "moving-parts", "sharp-fins",
       "flammable-refrigerant"}};
}

ProcedureDescriptor live(std::string_view id, std::string_view measurand, std::string_view title) {
  return {
      id,
      title,
      measurand,
      8.0,
      {
          {"decide",
           OHMWRIGHT_TEXT("Go on only if you are qualified for live work. The low-voltage side of a control may "
                          "be tied to the mains.")},
          {"place", OHMWRIGHT_TEXT("Unplugged, fix probes or clamp where they cannot slip or touch the wheel.")},
          {"run", OHMWRIGHT_TEXT("Plug in, hold the door switch, and wait until the control calls for the fan.")},
          {"read", OHMWRIGHT_TEXT("Note volts, amperes or pulses, whether it turns, and for how long you watched.")},
          {"end", OHMWRIGHT_TEXT("Unplug, prove dead, take the instruments off.")},
      },
      {"live-measurement", "meter-category", "low-voltage-side-live", "moving-parts", "flammable-refrigerant"}};
}

ProcedureDescriptor turning() {
  return {"speed-by-light",
          OHMWRIGHT_TEXT("How fast it turns"),
          "speed",
          5.0,
          {
              {"mark", OHMWRIGHT_TEXT("Unplugged, stick one strip of reflecting tape on hub or blade.")},
              {"run", OHMWRIGHT_TEXT("Let it run with its guard on, keep fingers, sleeves and hair away, and point the "
                                     "tachometer at it.")},
              {"blades", OHMWRIGHT_TEXT("Without tape it counts blades: divide by their number.")},
          },
          {"moving-parts", "unplug-for-tape"}};
}

ProcedureDescriptor thaw() {
  return {"thaw-the-wheel",
          OHMWRIGHT_TEXT("Thawing its wheel"),
          "winding",
          20.0,
          {
              {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the points dead.")},
              {"melt", OHMWRIGHT_TEXT("Melt the ice with warm, damp cloths; let the water run off and dry the motor.")},
              {"spin", OHMWRIGHT_TEXT("Flick its wheel and note how long it coasts.")},
          },
          {"disconnect-power", "prove-dead", "no-heat-gun", "water-and-mains", "moving-parts", "sharp-fins"}};
}

ProcedureDescriptor insulation_test() {
  return {
      "insulation-500-volt",
      OHMWRIGHT_TEXT("Insulation to the frame, 500 V (never of an electronic motor)"),
      "insulation",
      15.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the points dead.")},
          {"take-off",
           OHMWRIGHT_TEXT("Unplug boards, sensors and direct-current fans, and pull the motor's plug: 500 V "
                          "destroys electronics.")},
          {"test", OHMWRIGHT_TEXT("Join the winding's ends, test from them to the frame, for a minute. Touch neither "
                                  "probe.")},
          {"discharge",
           OHMWRIGHT_TEXT("Let the tester discharge it, and check that it did, before you touch anything.")},
      },
      {"disconnect-power", "prove-dead", "capacitor-charge", "insulation-test"}};
}

ProcedureDescriptor capacitor_alone() {
  return {
      "capacitor-alone",
      OHMWRIGHT_TEXT("The capacitor, a lead off"),
      "capacitance",
      8.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the points dead.")},
          {"discharge", OHMWRIGHT_TEXT("Discharge the capacitor through a resistor (20 kohm, some watts), never with a "
                                       "screwdriver, and confirm below 34 V.")},
          {"read", OHMWRIGHT_TEXT("Pull a lead off and read it on the capacitance range.")},
      },
      {"disconnect-power", "prove-dead", "capacitor-charge", "meter-category"}};
}

}  // namespace

std::vector<ProcedureDescriptor> describe_procedures() {
  return {ohms_of("winding-alone", "winding", OHMWRIGHT_TEXT("The winding, its plug off")),
          ohms_of("common-to-run", "common_run", OHMWRIGHT_TEXT("From common to run, its plug off")),
          ohms_of("common-to-start", "common_start", OHMWRIGHT_TEXT("From common to start, its plug off")),
          ohms_of("start-to-run", "start_run", OHMWRIGHT_TEXT("From start to run, its plug off")),
          live("supply-at-plug", "supply", OHMWRIGHT_TEXT("Volts at its plug, live")),
          live("current-running", "current", OHMWRIGHT_TEXT("What it draws, live")),
          live("tachometer-pulses", "tach", OHMWRIGHT_TEXT("Pulses of its tachometer, live")),
          live("capacitor-running", "capacitor_current", OHMWRIGHT_TEXT("Current through its capacitor, live")),
          turning(),
          capacitor_alone(),
          insulation_test(),
          thaw()};
}

std::vector<CautionDescriptor> describe_cautions() {
  return {{"unplug-for-tape", OHMWRIGHT_TEXT("Unplug to stick the tape; run it only with its guard on"),
           OHMWRIGHT_TEXT("Unplug the appliance before you stick the tape on the wheel, and let it run only with its "
                          "guard on."),
           "common practice, no source"}};
}

}  // namespace ohmwright::fan_motor
