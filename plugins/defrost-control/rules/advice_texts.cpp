#include <ohmwright/quantity/message.hpp>

#include "rules/advice.hpp"

namespace ohmwright::defrost_control {

std::vector<AdviceDescriptor> describe_advice() {  // in the order of AdviceIndex
  return {
      {"lift-a-lead",
       OHMWRIGHT_TEXT("Unplug, prove dead, pull the wires off the control, and read it alone (say --lead-off)."),
       "contacts-by-position"},
      {"read-contacts",
       OHMWRIGHT_TEXT("Read both contacts with their wires off, in run and in defrost: turn the cam with a screwdriver "
                      "until it clicks (defrost_contact=… run_contact=… --position defrost --lead-off)."),
       "contacts-by-position"},
      {"read-other-position",
       OHMWRIGHT_TEXT("Turn the cam until it clicks into its other position, and read both contacts once more "
                      "(--position run, --position defrost)."),
       "contacts-by-position"},
      {"say-position",
       OHMWRIGHT_TEXT("Say in which position it stood: --position run or --position defrost. The mark on its shaft, or "
                      "the click as you turn it, shows which.")},
      {"clean-and-read-again",
       OHMWRIGHT_TEXT("Clean its terminals, press the probes on firmly, turn the cam away and back, and read again.")},
      {"prove-dead",
       OHMWRIGHT_TEXT("Prove the points dead and read again (say --proved-dead); better, pull the wires off."),
       "contacts-by-position"},
      {"read-unplugged", OHMWRIGHT_TEXT("Unplug the appliance, prove it dead, pull the wires off and read again."),
       "contacts-by-position"},
      {"read-motor",
       OHMWRIGHT_TEXT(
           "Read the ohms of its motor, from line to neutral, with one of its wires off (motor=… --lead-off)."),
       "motor-ohms"},
      {"higher-range", OHMWRIGHT_TEXT("Read it once more on a higher range, and say which (--range).")},
      {"motor-temperature",
       OHMWRIGHT_TEXT(
           "Give the temperature of its motor with the reading (--at 22C). If it has just run, let it cool.")},
      {"watch-it-move",
       OHMWRIGHT_TEXT("Watch whether it moves on: turn it until it just clicks into defrost, mark its shaft, give it "
                      "power with the covers on, and note the minutes to the next click (advance=21min --position "
                      "defrost). On a board: force a defrost and note when it ends by itself."),
       "watch-it-move-on"},
      {"watch-longer",
       OHMWRIGHT_TEXT("Watch it longer: past {upper} a good one has moved on (advance=… --moved no, if it has not)."),
       "watch-it-move-on"},
      {"say-frequency",
       OHMWRIGHT_TEXT(
           "Give the frequency of the line (--frequency 50Hz): a timer motor made for 60 Hz takes 20 % longer "
           "on 50 Hz.")},
      {"count-run-time",
       OHMWRIGHT_TEXT(
           "Count the hours that the compressor ran, with a logger or a plug-in power meter, or say what share "
           "of the time it ran (--run-share 45%). Leave out the first defrost after a power cut.")},
      {"say-limits",
       OHMWRIGHT_TEXT("Give its ratings: how long a good one takes stands on its plate or in the sheet of "
                      "the appliance (ohmwright ratings lists classes).")},
      {"measure-output",
       OHMWRIGHT_TEXT(
           "Force a defrost with the coil cold, and read the volts from its defrost output to neutral with "
           "the amperes of the heater (output=… --line 118V --load 3.7A --position defrost --live-agreed). Live "
           "work, for the qualified."),
       "output-in-a-defrost"},
      {"output-under-load",
       OHMWRIGHT_TEXT("Read it with its load running: heater connected, thermostat cold and closed, a clamp around the "
                      "wire to the heater (--load). Live work, for the qualified."),
       "output-in-a-defrost"},
      {"output-in-run",
       OHMWRIGHT_TEXT(
           "Read its output in run as well (output=… --position run --line 118V --live-agreed): it has to be off. "
           "Live work, for the qualified."),
       "output-in-a-defrost"},
      {"say-line-voltage",
       OHMWRIGHT_TEXT("Read the volts of the line at the control at the same time, and give them (--line)."),
       "output-in-a-defrost"},
      {"measure-drop",
       OHMWRIGHT_TEXT(
           "Read the volts across the closed contact while the heater draws, with its amperes (drop=0.3V "
           "--load 3.7A --live-agreed): that tells a good contact from a bad one. Live work, for the qualified."),
       "drop-under-load"},
      {"clamp-current", OHMWRIGHT_TEXT("Put a clamp around the wire to the heater and give the amperes (--load)."),
       "drop-under-load"},
      {"read-sensor-supply",
       OHMWRIGHT_TEXT("Pull the sensor's connector off the board and read the volts on the board's side, live "
                      "(sensor_supply=…): treat these pins as tied to the line. For the qualified."),
       "volts-at-sensor-connector"},
      {"say-pull-up",
       OHMWRIGHT_TEXT(
           "Read it with the connector pulled and nothing in its place; with a resistor it can be judged only "
           "when the board's own resistor is known (\"sensor_pull_up\").")},
      {"find-why-it-stands",
       OHMWRIGHT_TEXT(
           "Before you buy: read whether it gets its supply at all, from line to neutral at its own terminals, "
           "and its motor's ohms. On many appliances it has power only while the compressor runs. Live work, "
           "for the qualified."),
       "output-in-a-defrost"},
      {"find-what-welded",
       OHMWRIGHT_TEXT(
           "Find out why it welded before you fit another: too much current, so read the heater's ohms and its "
           "insulation, and look for a burnt connector.")},
      {"before-buying-timer",
       OHMWRIGHT_TEXT(
           "Before you buy: check that you read the right terminals, by the diagram inside the appliance, and "
           "turn the cam once around, reading again.")},
      {"before-buying-board",
       OHMWRIGHT_TEXT(
           "Before you buy: check that the board has its supply, that the defrost was really on (door "
           "closed, coil cold, sensor right), and the connector to the heater. A sensor that reads warm ends "
           "a defrost at once.")},
      {"before-buying-contact",
       OHMWRIGHT_TEXT(
           "Before you buy: unplug, look at the connector for burnt pins, push it off and on, and read the drop "
           "once more with the probes on the control's own terminals.")},
      {"before-buying-input",
       OHMWRIGHT_TEXT("Before you buy: check that the board has its supply, that the sensor's connector was really "
                      "pulled, and that its pins are clean and dry.")},
      {"before-buying-interval",
       OHMWRIGHT_TEXT(
           "Before you buy: count one more interval. Leave out the first after a power cut, for a control that "
           "restarts counts anew, and check that its supply was never off meanwhile.")},
      {"replacement-timer",
       OHMWRIGHT_TEXT("A true replacement has the same volts and hertz, hours between defrosts and minutes of defrost, "
                      "amperes of its contacts, and the same wiring of its motor. Then prove it: watch it change over "
                      "both ways.")},
      {"replacement-board",
       OHMWRIGHT_TEXT(
           "A true replacement is the board for this very appliance: the same sensor, program, connectors and "
           "amperes. Then prove it with a forced defrost that you watch to its end.")},
      {"misread-decimal",
       OHMWRIGHT_TEXT(
           "Look at the display once more before you condemn it: {shown} would be right as {right}. Check the "
           "decimal point, and the k or M beside it.")},
      {"say-ratings", OHMWRIGHT_TEXT("Say what it is, a timer or a board, by its ratings (ohmwright ratings lists "
                                     "classes).")},
      {"take-off-leads",
       OHMWRIGHT_TEXT(
           "Hold the probes firmly together, note what they read, give it (--leads 0.3ohm), and read the contact again "
           "on the lowest range: what is left has to be {limit} at most.")},
      {"right-range",
       OHMWRIGHT_TEXT("Read it once more on the lowest range of ohms, the probes shorted first (--leads); if that "
                      "shows OL, on one "
                      "that reaches past 1 kΩ. Say the range (--range)."),
       "contacts-by-position"},
      {"touch-the-probes",
       OHMWRIGHT_TEXT(
           "First touch the probes together: they must read near 0 Ω. A broken test lead, the wrong jack or a "
           "flat battery shows OL too.")},
      {"watch-the-shaft",
       OHMWRIGHT_TEXT("Quicker than waiting for a click: mark its shaft, let it run for half an hour with the covers "
                      "on and the compressor running, unplug it and look. A shaft that stands as it stood is enough "
                      "(advance=30min --moved not-the-shaft --position run --run-share 100%)."),
       "watch-it-move-on"},
  };
}

}  // namespace ohmwright::defrost_control
