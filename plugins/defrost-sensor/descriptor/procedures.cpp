#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::defrost_sensor {

namespace {

ProcedureDescriptor at_the_board() {
  return {
      "ohms-from-the-board",
      OHMWRIGHT_TEXT("Ohms, board end first"),
      "resistance",
      6.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the board dead before you open its cover.")},
          {"find-connector",
           OHMWRIGHT_TEXT("Find the sensor's connector at the board and pull it: the sensor now lies alone, harness "
                          "included.")},
          {"probes",
           OHMWRIGHT_TEXT(
               "Short the probes and note what the leads read (--leads). Above 10 kΩ keep your fingers off the probe "
               "tips: skin lies beside the sensor.")},
          {"read-board-end",
           OHMWRIGHT_TEXT("Read the ohms at the pulled connector, on a range that shows them; note value, range and "
                          "whether it was wet.")},
          {"temperature",
           OHMWRIGHT_TEXT("Measure the temperature at the sensor itself with a thermometer that has soaked beside it. "
                          "Ice on the sensor does not mean 0 °C: it may be far colder.")},
          {"read-sensor-end",
           OHMWRIGHT_TEXT("Open the joint at the sensor and read again: what differs lies in the harness.")},
          {"refit", OHMWRIGHT_TEXT("Refit connector, covers and earth leads before you plug in.")},
      },
      {"disconnect-power", "prove-dead", "low-voltage-side-live", "meter-category", "flammable-refrigerant",
       "sharp-fins", "hot-surface"}};
}

ProcedureDescriptor in_ice_water() {
  return {
      "ohms-in-ice-water",
      OHMWRIGHT_TEXT("Ohms in stirred ice water"),
      "resistance",
      20.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug, prove dead, pull the sensor's connector, and let the heater cool before "
                                    "you reach for the sensor.")},
          {"bath",
           OHMWRIGHT_TEXT("Fill a cup with crushed ice, add water until it just covers the ice, and stir: 0 °C ± 0.2 K "
                          "as long as ice is left all through it. Slush with voids or warm water on top is not 0 °C.")},
          {"bag", OHMWRIGHT_TEXT("Put the sensor into a thin bag, press the air out, and keep joints dry.")},
          {"soak", OHMWRIGHT_TEXT("Soak it ten minutes below the ice, stirring now and then; do not hold it.")},
          {"read-three",
           OHMWRIGHT_TEXT("Read three times, a minute apart. Wait until the three agree within 0.5 %, and give them "
                          "all.")},
          {"dry", OHMWRIGHT_TEXT("Dry everything before you connect and plug in.")},
      },
      {"disconnect-power", "prove-dead", "hot-surface", "sharp-fins", "flammable-refrigerant", "no-heat-gun",
       "water-and-mains", "icy-is-not-zero"}};
}

ProcedureDescriptor as_found_and_dried() {
  return {"wet-and-dry",
          OHMWRIGHT_TEXT("As found, then dried"),
          "resistance",
          25.0,
          {
              {"unplug", OHMWRIGHT_TEXT("Unplug, prove dead and pull the sensor's connector.")},
              {"as-found",
               OHMWRIGHT_TEXT(
                   "Read the ohms as found, wet and cold, with the temperature measured at the sensor. Keep this "
                   "reading: it is the one that the control had.")},
              {"dry",
               OHMWRIGHT_TEXT("Take the sensor off its clip; dry sensor, splice and connector with a cloth and time, "
                              "not with heat.")},
              {"soak", OHMWRIGHT_TEXT("Soak it at a known temperature and read again, dry.")},
          },
          {"disconnect-power", "prove-dead", "sharp-fins", "hot-surface", "no-heat-gun", "flammable-refrigerant",
           "water-and-mains", "icy-is-not-zero"}};
}

ProcedureDescriptor seat_and_clip() {
  return {
      "seat-on-the-coil",
      OHMWRIGHT_TEXT("Clipped in place, against the coil"),
      "resistance",
      8.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug, prove dead, pull the sensor's connector at the board; leave the sensor in "
                                    "its clip.")},
          {"look", OHMWRIGHT_TEXT("Look: is the clip tight, the sensor on bare tube, and where its maker put it?")},
          {"coil-thermometer",
           OHMWRIGHT_TEXT("Press a thermometer onto the tube beside the clip, under a piece of insulation, and wait "
                          "until it stands still.")},
          {"read", OHMWRIGHT_TEXT("Read the ohms at the connector and the coil's temperature at the same moment.")},
      },
      {"disconnect-power", "prove-dead", "sharp-fins", "hot-surface", "flammable-refrigerant", "moving-parts",
       "icy-is-not-zero"}};
}

ProcedureDescriptor live_volts() {
  return {
      "volts-at-the-board",
      OHMWRIGHT_TEXT("Volts at the control's input, live"),
      "voltage",
      5.0,
      {
          {"decide", OHMWRIGHT_TEXT(
                         "Prefer the ohms, unplugged. Go on only if you are qualified for live work: the sensor's side "
                         "may be tied to the mains.")},
          {"meter",
           OHMWRIGHT_TEXT("Use a meter whose inputs float and are rated for the mains; nothing earthed, nothing "
                          "linked to a computer.")},
          {"read",
           OHMWRIGHT_TEXT("With the connector in place read the direct voltage across the sensor's two pins, one hand "
                          "at a time, insulated probes.")},
          {"reference",
           OHMWRIGHT_TEXT("Read the supply of the pull-up too: the ratings' reference voltage must be it.")},
      },
      {"live-measurement", "low-voltage-side-live", "meter-category", "flammable-refrigerant", "moving-parts"}};
}

}  // namespace

std::vector<ProcedureDescriptor> describe_procedures() {
  return {at_the_board(), in_ice_water(), as_found_and_dried(), seat_and_clip(), live_volts()};
}

std::vector<CautionDescriptor> describe_cautions() {
  return {
      {"icy-is-not-zero", OHMWRIGHT_TEXT("Ice on it is not 0 °C: measure the temperature"),
       OHMWRIGHT_TEXT(
           "A sensor in ice is as cold as that ice, which may be far below 0 °C. Only melting ice in stirred "
           "water is 0 °C."),
       "ASTM E563 (ice-point bath)"},
  };
}

}  // namespace ohmwright::defrost_sensor
