#include <ohmwright/quantity/message.hpp>

#include "rules/advice.hpp"

namespace ohmwright::bimetal_thermostat {

std::vector<AdviceDescriptor> describe_advice() {  // in the order of AdviceIndex
  return {
      {"lift-a-lead",
       OHMWRIGHT_TEXT("Unplug, lift one of its leads or pull its connector, and read it alone (say --lead-off)."),
       "contact-as-found"},
      {"prove-dead-and-swap",
       OHMWRIGHT_TEXT("In circuit: prove the points dead, read, swap the probes and read again "
                      "(state_swapped=…, --proved-dead)."),
       "contact-as-found"},
      {"read-unplugged",
       OHMWRIGHT_TEXT("Unplug the appliance, prove it dead, lift one of its leads and read the contact again."),
       "contact-as-found"},
      {"state-temperature",
       OHMWRIGHT_TEXT(
           "Tape a thermometer to the part, wait until it stands still, and give the temperature (--at). Ice "
           "on it does not mean 0 °C.")},
      {"chill-in-ice-water",
       OHMWRIGHT_TEXT("Chill it to {target} or below and read it again, a lead off: closed there is right, open "
                      "condemns it. Stirred ice water does: bag it, ten minutes, thermometer beside it."),
       "contact-chilled"},
      {"chill-in-salted-ice",
       OHMWRIGHT_TEXT("Chill it to {target} or below and read it again, a lead off: closed there is right, open "
                      "condemns it. Plain ice is too warm for most: bag it in crushed ice with a third of salt (near "
                      "{salted}), or use the freezer, thermometer taped to it. No freeze spray, it may be flammable."),
       "contact-chilled"},
      {"chill-in-freezer",
       OHMWRIGHT_TEXT("Chill it to {target} or below and read it again, a lead off: closed there is right, open "
                      "condemns it. Salted ice hardly gets there: leave it in a freezer at its coldest setting, "
                      "thermometer taped to it. No freeze spray, it may be flammable."),
       "contact-chilled"},
      {"warm-by-hand",
       OHMWRIGHT_TEXT(
           "Warm it to {target} or above and read it again, a lead off: open there is right, closed condemns "
           "it. A warm room or a bagged warm cloth does; no heat gun. Tape the thermometer to it."),
       "trip-points"},
      {"warm-in-water",
       OHMWRIGHT_TEXT(
           "Warm it to {target} or above and read it again, a lead off: open there is right, closed condemns "
           "it. Take it out and hold it, bagged, in hot water with a thermometer; no heat gun."),
       "trip-points"},
      {"warm-on-bench",
       OHMWRIGHT_TEXT(
           "It would have to be {target} or warmer to be decided: take it out, and warm it on a bench with a "
           "source that can be held steady, thermometer on it. Without one, compare it with a new part."),
       "trip-points"},
      {"watch-it-open",
       OHMWRIGHT_TEXT("Warm it slowly, {step} a minute, from {from} to {to} with a lead off. Note the last "
                      "closed and the first open temperature: between them it opens."),
       "trip-points"},
      {"watch-it-close",
       OHMWRIGHT_TEXT("Cool it slowly, {step} a minute, from {from} to {to} with a lead off. Note the last open "
                      "and the first closed temperature: between them it closes."),
       "trip-points"},
      {"narrow-opening",
       OHMWRIGHT_TEXT("Warm it again from {from} to {to}, {step} a minute, and read at every {step}. That would "
                      "settle where it opens in {chance_percent} cases of 100."),
       "trip-points"},
      {"narrow-closing",
       OHMWRIGHT_TEXT("Cool it again from {from} to {to}, {step} a minute, and read at every {step}. That would "
                      "settle where it closes in {chance_percent} cases of 100."),
       "trip-points"},
      {"better-thermometer",
       OHMWRIGHT_TEXT("The thermometer is {share_percent} % of the doubt. With one good to {doubt}, taped to the part, "
                      "the same readings would settle it in {chance_percent} cases of 100.")},
      {"more-cycles",
       OHMWRIGHT_TEXT("Chill and warm it ten times, slowly, thermometer taped to it. If the trip still wanders, the "
                      "contact sticks; if it settles, the thermometer lagged."),
       "trip-points"},
      {"order-of-readings",
       OHMWRIGHT_TEXT("Give the readings in the order of time. If they were, go slower: {step} a minute, "
                      "thermometer taped to the part.")},
      {"dry-it",
       OHMWRIGHT_TEXT("Dry part, terminals and connector, lift one lead, keep your fingers off the probe tips "
                      "and read again.")},
      {"clean-and-read-again",
       OHMWRIGHT_TEXT(
           "See that a lead is really off, else you read the heater. Clean the terminals, press the probes on "
           "firmly, and read again at the same temperature.")},
      {"touch-the-probes",
       OHMWRIGHT_TEXT(
           "First touch the probes together: they must read near 0 Ω. A broken test lead, the wrong jack or a "
           "flat battery shows OL too.")},
      {"measure-drop",
       OHMWRIGHT_TEXT(
           "If you are qualified for live work, decide the contact under load: coil cold, heater running, volts across "
           "the thermostat and amperes with a clamp (drop=… --load … --live-agreed); stop at once if it gets warm. A "
           "good one drops at most {per_ampere} for each ampere."),
       "drop-under-load"},
      {"clamp-current",
       OHMWRIGHT_TEXT("Put a clamp around one wire of the heater while you read the drop, and give the current "
                      "(--load)."),
       "drop-under-load"},
      {"read-link", OHMWRIGHT_TEXT("Read the thermal link across its own two leads, one of them off (link=…)."),
       "link-alone"},
      {"find-cause-of-link",
       OHMWRIGHT_TEXT(
           "Before you fit a new one find what overheated it: a welded thermostat, a control that never ends "
           "the defrost, a heater too strong or touching it. Never bridge "
           "it.")},
      {"check-both-of-pair",
       OHMWRIGHT_TEXT("Replace thermostat and link as one part. First look for what may have overheated it: a control "
                      "that never ends the defrost, a heater touching it. Never bridge it.")},
      {"say-ratings",
       OHMWRIGHT_TEXT("Read what is stamped on it and give its ratings (ohmwright ratings lists classes). If it ends a "
                      "defrost and the stamp is gone, --ratings any-defrost tells what holds for all of them.")},
      {"warm-well-past",
       OHMWRIGHT_TEXT("Read it past {target}: a type 1 part may drift, but not by its whole differential.")},
      {"watch-a-defrost",
       OHMWRIGHT_TEXT(
           "It moves, but not where it is rated. Watch one defrost to its end: if that comes too early or too "
           "late, fit a type 2 part of the rated temperatures."),
       "drop-under-load"},
      {"before-buying",
       OHMWRIGHT_TEXT("Before you buy: read it once more, a lead off, thermometer taped to it and ten minutes to "
                      "settle, and look at its leads and connector.")},
      {"before-buying-welded",
       OHMWRIGHT_TEXT("Before you buy: read it once more, a lead off, thermometer taped to it and ten minutes to "
                      "settle. A contact welds for a reason: check the current of the heater.")},
      {"before-buying-contact",
       OHMWRIGHT_TEXT(
           "Before you buy: unplug, clean and tighten every joint between the probes, and read the drop once "
           "more on the part's own leads."),
       "drop-under-load"},
      {"replacement",
       OHMWRIGHT_TEXT("A true replacement opens at {opening}, closes at {closing}, and goes where the old one sat, "
                      "held as tight as it was.")},
      {"replacement-with-current",
       OHMWRIGHT_TEXT("A true replacement opens at {opening}, closes at {closing}, carries {current} or more, and goes "
                      "where the old one sat, held as tight as it was.")},
      {"replacement-by-stamp",
       OHMWRIGHT_TEXT("A true replacement has the temperatures and the current stamped on the old one, and goes where "
                      "it sat, held as tight as it was.")},
      {"replacement-link", OHMWRIGHT_TEXT("It has to hold a thermal link for {functioning}; never fit one without.")},
      {"it-switches",
       OHMWRIGHT_TEXT("If you only need to know whether it works, it does: leave it in, and look next at heater, link "
                      "and control. Where exactly it trips matters if the defrost ends too early or too late.")},
      {"hold-and-tap",
       OHMWRIGHT_TEXT(
           "Hold it at one temperature, a lead off, the probes pressed on clean metal, and read it five times "
           "while you tap its housing and move its leads, and give each reading in turn. If it still changes to and "
           "fro, its contact or a lead comes and goes."),
       "contact-as-found"},
      {"note-each-state",
       OHMWRIGHT_TEXT(
           "Read it once more at both temperatures, a lead off, thermometer taped to it, and note each state as you "
           "read it. If it does close warm and open cold, read what is stamped on it: it is not the part that ends a "
           "defrost."),
       "contact-chilled"},
      {"right-range",
       OHMWRIGHT_TEXT("Read it once more on the lowest range of ohms, the probes shorted first (--leads); if that "
                      "shows OL, on one "
                      "that reaches past 1 kΩ. Say the range (--range)."),
       "contact-as-found"},
      {"leave-it-in", OHMWRIGHT_TEXT("Leave it in, and look next at heater, link and control.")},
      {"no-load-test",
       OHMWRIGHT_TEXT(
           "Clean its terminals, read it once more in the cold, a lead off, and say so (--terminals cleaned): more "
           "than "
           "{limit} then condemns it. Run no heater through it to find out: at the amperes of a heater such a contact "
           "burns inside its housing."),
       "contact-as-found"},
      {"read-both-at-once",
       OHMWRIGHT_TEXT(
           "Unplug it, chill it until it closes and read its ohms, a lead off. Only if you are qualified for live "
           "work: volts and amperes once more, at one moment, the coil cold and the heater running."),
       "contact-chilled"},
      {"unit-was-fahrenheit",
       OHMWRIGHT_TEXT("First look again: at {degrees} °F it would be right. Was the unit of the temperature "
                      "mistaken?")},
      {"unit-was-celsius",
       OHMWRIGHT_TEXT("First look again: at {degrees} °C it would be right. Was the unit of the temperature "
                      "mistaken?")},
  };
}

}  // namespace ohmwright::bimetal_thermostat
