#include <ohmwright/quantity/message.hpp>

#include "descriptor/descriptor.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

ProcedureDescriptor as_found() {
  return {
      "contact-as-found",
      OHMWRIGHT_TEXT("The contact, a lead off, as found"),
      "state",
      6.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the points dead. Let the heater cool.")},
          {"lift-lead",
           OHMWRIGHT_TEXT("Pull its connector or lift one of its leads. In circuit the timer motor and the heater lie "
                          "beside it, and a switch that is not OL need not be closed.")},
          {"probes", OHMWRIGHT_TEXT("Lowest ohms range. Short the probes and note what the leads read (--leads).")},
          {"read",
           OHMWRIGHT_TEXT("Touch its two leads, on bare metal, and note ohms or OL. Of a part with a thermal link take "
                          "the two leads of the thermostat.")},
          {"temperature",
           OHMWRIGHT_TEXT("Tape a thermometer to its face, wait until it stands still, and note the temperature with "
                          "the reading. Open at room temperature is normal.")},
          {"refit", OHMWRIGHT_TEXT("Refit leads, covers and earth before you plug in.")},
      },
      {"disconnect-power", "prove-dead", "meter-category", "do-not-bridge", "flammable-refrigerant", "sharp-fins",
       "hot-surface", "icy-is-not-zero"}};
}

ProcedureDescriptor chilled() {
  return {
      "contact-chilled",
      OHMWRIGHT_TEXT("The contact, chilled"),
      "state",
      25.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug, prove dead, take the part off its tube and lift a lead.")},
          {"bag", OHMWRIGHT_TEXT("Tape a thermometer to it, put both into a thin bag and press the air out.")},
          {"chill", OHMWRIGHT_TEXT(
                        "Crushed ice with a third of its weight of salt gets near -18 °C; plain ice, 0 °C, closes few "
                        "of them. A freezer does too. No freeze spray: it may be flammable.")},
          {"soak", OHMWRIGHT_TEXT("Ten minutes, until the thermometer stands still. You hear it click.")},
          {"read",
           OHMWRIGHT_TEXT("Read ohms or OL across its leads while it is still in there, with the temperature.")},
          {"dry", OHMWRIGHT_TEXT("Dry everything before you connect and plug in.")},
      },
      {"disconnect-power", "prove-dead", "no-freeze-spray", "salted-ice", "flammable-refrigerant", "sharp-fins",
       "hot-surface", "water-and-mains", "do-not-bridge"}};
}

ProcedureDescriptor slow_series() {
  return {
      "trip-points",
      OHMWRIGHT_TEXT("Where it opens and closes, slowly"),
      "state",
      60.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug, prove dead, take the part out, lift a lead, clip the meter to it.")},
          {"thermometer",
           OHMWRIGHT_TEXT("Tape a fast thermometer to its face, wrap both in cloth, and chill them until it closes.")},
          {"warm",
           OHMWRIGHT_TEXT("Let it warm by half a kelvin a minute at most. Note state and temperature at every half "
                          "kelvin; the last closed and the first open one count.")},
          {"cool", OHMWRIGHT_TEXT("Cool it again as slowly and note the last open and the first closed one.")},
          {"cycles",
           OHMWRIGHT_TEXT("Do it several times where you can: a contact that sticks now and then shows only so.")},
          {"series",
           OHMWRIGHT_TEXT("Give all readings in the order of time; if you know how long the part lags behind its "
                          "thermometer, say so (--lag, --ramp).")},
      },
      {"disconnect-power", "prove-dead", "no-freeze-spray", "salted-ice", "no-heat-gun", "flammable-refrigerant",
       "water-and-mains", "do-not-bridge"}};
}

ProcedureDescriptor across_the_link() {
  return {
      "link-alone",
      OHMWRIGHT_TEXT("The thermal link, across its own leads"),
      "link",
      6.0,
      {
          {"unplug", OHMWRIGHT_TEXT("Unplug the appliance and prove the points dead.")},
          {"leads", OHMWRIGHT_TEXT(
                        "Find the two leads of the link and lift one. With two leads on the whole part it has none of "
                        "its own: read it cold, as a thermostat.")},
          {"read", OHMWRIGHT_TEXT("Lowest ohms range, across those two: closed at every temperature you can stand.")},
          {"cause",
           OHMWRIGHT_TEXT("If it is open, do not bridge it, not even for a test run: find what overheated it first.")},
      },
      {"disconnect-power", "prove-dead", "do-not-bridge", "meter-category", "flammable-refrigerant", "sharp-fins",
       "hot-surface"}};
}

ProcedureDescriptor under_load() {
  return {
      "drop-under-load",
      OHMWRIGHT_TEXT("Voltage drop under load, live"),
      "drop",
      10.0,
      {
          {"decide",
           OHMWRIGHT_TEXT(
               "Go on only if you are qualified for live work, the coil is cold enough to keep it closed, the "
               "limit of the heater is proved and not bridged, and the drain is clear.")},
          {"meter",
           OHMWRIGHT_TEXT("Volts, alternating, on a range that shows tenths of a millivolt; clamp around one wire of "
                          "the heater. Fix the probes before you plug in.")},
          {"force", OHMWRIGHT_TEXT("Force a defrost, for ten minutes at most, and stay with it.")},
          {"read",
           OHMWRIGHT_TEXT("Note the volts across the two leads of the thermostat and the amperes at the same time. The "
                          "full supply across it and no current says that it is open.")},
          {"end", OHMWRIGHT_TEXT("Unplug, prove dead, take the probes off, refit everything.")},
      },
      {"live-measurement", "meter-category", "low-voltage-side-live", "forced-defrost", "flammable-refrigerant",
       "moving-parts", "hot-surface", "do-not-bridge"}};
}

}  // namespace

std::vector<ProcedureDescriptor> describe_procedures() {
  return {as_found(), chilled(), slow_series(), across_the_link(), under_load()};
}

std::vector<CautionDescriptor> describe_cautions() {
  return {
      {"icy-is-not-zero", OHMWRIGHT_TEXT("Ice on it is not 0 °C: measure the temperature"),
       OHMWRIGHT_TEXT("A part in ice is as cold as that ice, which may be far below 0 °C. Only melting ice in stirred "
                      "water is 0 °C."),
       "ASTM E563 (ice-point bath)"},
      {"no-freeze-spray", OHMWRIGHT_TEXT("No freeze spray: it may be flammable"),
       OHMWRIGHT_TEXT("Chill it with salted ice or in a freezer. Never use freeze spray: its propellant may be "
                      "flammable, and a contact that opens can spark."),
       "common practice, no source"},
      {"salted-ice", OHMWRIGHT_TEXT("Salted ice freezes skin: gloves, and keep brine off metal and wiring"),
       OHMWRIGHT_TEXT("Salted ice is near -20 °C: wear gloves, bag the part, and keep the brine off metal and wiring."),
       "common practice, no source"},
      {"forced-defrost", OHMWRIGHT_TEXT("Forced defrost: proved limit, clear drain, time limit, somebody there"),
       OHMWRIGHT_TEXT("Force a defrost only with a proved, unbridged limit, a clear drain and a time limit, and stay "
                      "with it until it is over."),
       "common practice, no source"},
  };
}

}  // namespace ohmwright::bimetal_thermostat
