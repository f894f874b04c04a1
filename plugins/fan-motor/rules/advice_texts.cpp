#include <ohmwright/component/insulation_when_wet.hpp>
#include <ohmwright/quantity/message.hpp>

#include "rules/advice.hpp"

namespace ohmwright::fan_motor {

std::vector<AdviceDescriptor> describe_advice() {  // in the order of AdviceIndex
  return {
      {"lift-a-lead", OHMWRIGHT_TEXT("Unplug, prove dead, pull the motor's plug, and read it alone (say --lead-off)."),
       "winding-alone"},
      {"prove-dead-and-swap",
       OHMWRIGHT_TEXT("In circuit: prove the points dead, read, swap the probes and read again "
                      "(winding_swapped=…, --proved-dead)."),
       "winding-alone"},
      {"read-unplugged", OHMWRIGHT_TEXT("Unplug the appliance, prove it dead, pull the motor's plug and read again."),
       "winding-alone"},
      {"firm-probes",
       OHMWRIGHT_TEXT(
           "Clean the terminals, press the probes on firmly, move the leads while you read, and read again.")},
      {"touch-the-probes",
       OHMWRIGHT_TEXT(
           "First touch the probes together: they must read near 0 Ω. A broken test lead, the wrong jack or a "
           "flat battery shows OL too.")},
      {"higher-range", OHMWRIGHT_TEXT("Read it once more on a higher range, and say which (--range).")},
      {"winding-temperature",
       OHMWRIGHT_TEXT("Give the temperature of the winding (--at): of a motor that has stood for an hour, that of its "
                      "compartment; one that ran is warmer inside than any thermometer on it.")},
      {"better-thermometer",
       OHMWRIGHT_TEXT("Let it stand until it is as warm as its surroundings, read those to half a kelvin, and read it "
                      "with a good meter: that decides its ohms with a chance of {chance_percent} %.")},
      {"run-it",
       OHMWRIGHT_TEXT(
           "Its insulation proved, let it run at its rated volts, guards on and fingers away: note how fast it "
           "turns (speed=…) and, if you are qualified for live work, what it draws (current=… --live-agreed). Hum, "
           "heat or "
           "a smell within a minute are shorted turns."),
       "current-running"},
      {"clamp-it",
       OHMWRIGHT_TEXT(
           "Read what it draws at its rated volts, if you are qualified for live work: a clamp around one wire, "
           "several turns of it divided by their number (current=… --live-agreed). Too hot after a minute counts as "
           "too much."),
       "current-running"},
      {"volts-at-plug",
       OHMWRIGHT_TEXT(
           "Read the volts at its plug while it runs, if you are qualified for live work (supply=… --live-agreed), and "
           "look that nothing holds its wheel."),
       "supply-at-plug"},
      {"spin-by-hand",
       OHMWRIGHT_TEXT(
           "Unplug, prove dead, and flick its wheel: it should coast for a second and more (--coast 3s). Stuck, "
           "it is ice or the bearing."),
       "winding-alone"},
      {"supply-then-tach",
       OHMWRIGHT_TEXT(
           "Read in this order at its plug, live and for the qualified only (its low-voltage side may be tied to "
           "the mains): supply volts, control signal, ground, tachometer. To see pulses the tachometer needs "
           "its supply and a pull-up."),
       "tachometer-pulses"},
      {"watch-a-retry",
       OHMWRIGHT_TEXT(
           "Watch it, and the volts, through one whole try of the control, {retry} at least (--watched). The "
           "highest reading counts."),
       "supply-at-plug"},
      {"look-upstream",
       OHMWRIGHT_TEXT(
           "Look before it: door switch, control or relay, fuse, plug and wiring. Many controls stop the fan "
           "during a defrost, for minutes after it, and with the door open.")},
      {"thaw-first",
       OHMWRIGHT_TEXT(
           "Thaw it and flick it again, with its temperature (--at). If it is free then, ice stopped it: look "
           "upstream, at drain and defrost."),
       "thaw-the-wheel"},
      {"cool-down",
       OHMWRIGHT_TEXT(
           "Let it stand unplugged for half an hour, and read it again with its temperature (--at): a protector "
           "that opened in the heat is closed then.")},
      {"say-frequency",
       OHMWRIGHT_TEXT(
           "Give current, volts across it and frequency (capacitor_current=… --across 372V --hz 60Hz); or read "
           "it with the meter: unplug, discharge it through a resistor, confirm below 34 V, a lead off.")},
      {"better-clamp",
       OHMWRIGHT_TEXT("Read it with an instrument of more digits (--meter good), several turns of the wire through the "
                      "clamp divided by their number."),
       "current-running"},
      {"insulation-tester",
       OHMWRIGHT_TEXT(
           "Test it with a 500 V insulation tester (insulation=… --test 500V). First unplug boards, sensors "
           "and direct-current fans, and pull the motor's plug; test from the winding to the frame only, and "
           "discharge afterwards. Until then do not energise it."),
       "insulation-500-volt"},
      {"frame-too",
       OHMWRIGHT_TEXT("Unplugged, read from its leads to the frame as well (insulation=…), before it is energised or "
                      "handed back: nothing read so far speaks of its insulation."),
       "winding-alone"},
      {"no-test-of-electronics",
       OHMWRIGHT_TEXT(
           "Do not test it with 500 V. An ohmmeter that shows less than {least} from its leads to the frame is enough "
           "to condemn it.")},
      {"dry-and-repeat",
       OHMWRIGHT_TEXT("A wet motor leaks: dry it warm for some hours and test it once more with 500 V (--dry).")},
      {"do-not-energise",
       OHMWRIGHT_TEXT(
           "Leave it unplugged and tell the customer why. Check the protective earth before anything else is "
           "switched on.")},
      {"fit-capacitor",
       OHMWRIGHT_TEXT(
           "Fit a new run capacitor, not a new motor: as many microfarads and at least the volts printed on the old "
           "one. First unplug, prove dead, discharge the old one through a resistor and confirm below 34 V. "
           "Then, its insulation proved, see it run (speed=…)."),
       "capacitor-alone"},
      {"say-ratings", OHMWRIGHT_TEXT("Read its plate and give its ratings (ohmwright ratings lists classes).")},
      {"before-buying",
       OHMWRIGHT_TEXT(
           "Before you buy: look at plug, crimps and wheel, and at what stopped it. A fan that ice stopped is a "
           "consequence, and the next one will stop too.")},
      {"replacement",
       OHMWRIGHT_TEXT(
           "A true replacement has the same volts and frequency, speed, sense of rotation, size and mount, and "
           "the same plug and tachometer; mind where its own wheel or the old one fits.")},
      {"discharge-first",
       OHMWRIGHT_TEXT(
           "Before you touch its capacitor: unplug, prove dead, and hold {resistor} (some watts, insulated clips) "
           "across "
           "it for {hold} at least. Charged to the peak of {volts}, {farads} take {falls} to fall to {touchable}. Then "
           "confirm with a meter that it is below that."),
       "capacitor-alone"},
      {"see-it-turn",
       OHMWRIGHT_TEXT("Look whether its wheel turns, guards on and fingers away, and say so: --wheel turns, "
                      "speed=0rpm, or its speed "
                      "by a tachometer of light."),
       "speed-by-light"},
      {"look-at-tachometer",
       OHMWRIGHT_TEXT(
           "Look at the tachometer before the fan: the pin, its lead and connector, its supply and pull-up, and how "
           "many pulses a turn has. Then read pulses and speed at the same time."),
       "tachometer-pulses"},
      {"volts-while-still",
       OHMWRIGHT_TEXT(
           "Read the volts at its plug while the control calls for it and it stands still, if you are qualified for "
           "live work (supply=… --live-agreed). Without them look before it: door switch, control, fuse, wiring."),
       "supply-at-plug"},
      {"misread-decimal",
       OHMWRIGHT_TEXT(
           "First look again: {shown} would be right as {right}. Was the k, the point or the range misread?")},
      {"cut-the-supply",
       OHMWRIGHT_TEXT("Cut the supply at the wall now, and prove dead before you touch anything: mains on a "
                      "low-voltage plug is on "
                      "boards, sensors and wires too. Find where it comes from before anything is plugged in again.")},
      {"unplug-it-now",
       OHMWRIGHT_TEXT(
           "Unplug it now. Then find out why, before any motor is fitted: a motor for other volts than its place, a "
           "transformer or control for another supply, two legs where one belongs, a lost neutral.")},
      {"read-pulsed-supply",
       OHMWRIGHT_TEXT(
           "Read its supply once more, between its own supply and ground pins, with what bears pulses: a true-RMS "
           "range for alternating and direct volts together, or one that holds the highest. Live work, for the "
           "qualified."),
       "supply-at-plug"},
      {"volts-plugged-in",
       OHMWRIGHT_TEXT(
           "Read the volts with its plug in, from behind, or with a meter of low impedance, if you are qualified for "
           "live work: a plug that nothing loads shows volts that feed nothing (ghost volts)."),
       "supply-at-plug"},
      {"read-speed-again",
       OHMWRIGHT_TEXT(
           "Read its speed once more at its rated volts, with one mark on its hub: what counts each blade that passes "
           "is to be divided by their number. And look on its plate for its poles and speed."),
       "speed-by-light"},
      {"test-once-more",
       OHMWRIGHT_TEXT(
           "Clean and dry its terminals and test it once more with 500 V, for a minute, its plug off and nothing else "
           "beside it. Until then do not energise it."),
       "insulation-500-volt"},
      {"leave-it-in",
       OHMWRIGHT_TEXT(
           "Leave it in: it runs as it should. Where too little air moves, look for ice on the coil, a loose or wrong "
           "wheel and blocked ducts; where it stops at times, at what switches it.")},
      {"read-the-signal",
       OHMWRIGHT_TEXT(
           "Read its control signal at its plug while it should run, live and for the qualified only, or pull its plug "
           "and feed it from a supply of its own, of its rated volts and polarity: if it stands still then, it is dead "
           "(--signal run). If the signal tells it to stand, look at control, door switch and sensor (--signal stop)."),
       "supply-at-plug"},
      {"may-be-warm",
       OHMWRIGHT_TEXT(
           "Did it run, or stand still under power, within the last half hour? Then its winding is warmer than what "
           "was read beside it, and from {warm} on a good one reads this. Let it cool and read it again before you "
           "buy.")},
      {"cool-and-start",
       OHMWRIGHT_TEXT("Let it stand unplugged for half an hour. Then see whether it starts when it is fed, and say its "
                      "temperature (--at); or read its winding, its plug off.")},
      {"swap-the-probes",
       OHMWRIGHT_TEXT("Put the black probe on its ground pin and read it again; if it still shows minus, its wires are "
                      "swapped: set them right and see it run."),
       "supply-at-plug"},
      {"clear-its-air",
       OHMWRIGHT_TEXT("Clear coil and ducts of frost and dirt, and see its wheel free and tight on its shaft, all "
                      "unplugged; then read once more how fast it turns and what it draws, and say that they are clear "
                      "(--air clear)."),
       "current-running"},
      {"see-it-run-since",
       OHMWRIGHT_TEXT(
           "A 500 V test was put on its electronics. Read from its leads to the frame with an ohmmeter once more, "
           "see it run, and give both after the test (insulation=OL speed=…): that clears it."),
       "speed-by-light"},
      {"seal-or-renew",
       OHMWRIGHT_TEXT(
           "Find where the water gets in, seal it or renew the motor; then wet it and test it once more with "
           "500 V (insulation=… --wet --test 500V). Until then do not energise it."),
       "insulation-500-volt"},
      {"cool-before-buying",
       OHMWRIGHT_TEXT(
           "Did it run, or stand still under power, within the last half hour? Then it is warmer inside than "
           "what was read beside it: let it stand unplugged for half an hour and read it again before you "
           "buy.")},
      {"feed-it-alone",
       OHMWRIGHT_TEXT(
           "Pull its plug, feed it from a supply of its own, of its rated volts and polarity, its control wire left "
           "open, and read its speed once more (speed=… --signal run). One that has no control wire says so in its "
           "ratings (wires)."),
       "supply-at-plug"},
      say_if_it_was_wet_advice(),
      wet_with_more_volts_advice("insulation-500-volt"),
      {"leave-out-stale-volts",
       OHMWRIGHT_TEXT("Leave out the volts that were read before something was changed: probes, wires, switch or feed. "
                      "Where nothing "
                      "was changed, read them once more at the same two pins (supply=… --live-agreed), if you are "
                      "qualified for live "
                      "work."),
       "supply-at-plug"},
      {"find-the-high-volts",
       OHMWRIGHT_TEXT("It gets {volts}, more than 110 % of its rated {rated}, up to which its limits make room: find "
                      "out why, at the supply, a transformer or control for other volts, or a lost neutral, or whether "
                      "it is the right motor there. Then read it at its rated volts."),
       "supply-at-plug"},
      {"read-its-capacitor",
       OHMWRIGHT_TEXT("Read its capacitor before you condemn the motor: unplug, prove dead, discharge it through a "
                      "resistor, confirm below 34 V, pull a lead off it and read it (capacitance=… --lead-off)."),
       "capacitor-alone"},
      {"in-place-of-leads-on",
       OHMWRIGHT_TEXT(
           "Give what it reads with its plug off in place of the reading with its plug in, not beside it. Where it is "
           "no longer low, what hung on its leads leaks: find that before anything is energised.")},
      {"dry-electronics", OHMWRIGHT_TEXT("Leave it unplugged, dry it warm for some hours and read it once more with an "
                                         "ohmmeter from its leads to the "
                                         "frame (insulation=… --dry).")},
      {"wet-electronics",
       OHMWRIGHT_TEXT(
           "Find where the water gets in, and seal it or renew the motor. One that was sealed is wetted and read once "
           "more with an ohmmeter (insulation=… --wet): what an ohmmeter found wet is cleared by OL of one, dry and "
           "wet. "
           "Until then do not energise it.")},
      {"at-its-frequency",
       OHMWRIGHT_TEXT(
           "It was said to run on {stated}, and it is made for {rated}: look whether that is so, and whether it "
           "is the right motor there. What it draws is judged at its rated frequency alone.")},
      {"name-its-terminals",
       OHMWRIGHT_TEXT(
           "Mark its terminals anew: between start and run the ohms are highest, the third is the common, and from "
           "that "
           "the higher winding leads to start. Give the three once more under these names (common_run=… common_start=… "
           "start_run=…).")},
      {"capacitor-past-range",
       OHMWRIGHT_TEXT("Discharge it, pull a lead off it and read it once more on a range that holds it (capacitance=… "
                      "--lead-off). If "
                      "it shows OL again, read its ohms: those of a good one climb to OL, one that stays near 0 Ω is "
                      "shorted, and a "
                      "new one is fitted."),
       "capacitor-alone"},
  };
}

}  // namespace ohmwright::fan_motor
