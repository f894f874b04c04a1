#include "rules/state_at_temperature_texts.hpp"

#include <ohmwright/quantity/message.hpp>

#include "rules/state_at_temperature.hpp"

namespace ohmwright::bimetal_thermostat {

RuleDescriptor describe_state_at_temperature() {
  return {
      "state-at-temperature",
      OHMWRIGHT_TEXT("Closed or open at its temperature"),
      false,
      can_condemn | can_be_undecided,
      "P(state | good part), ours; IEC 60730-1 (operating value, differential); hysteresis leaves both states good "
      "between",
      {
          // in the order of StateText
          {"closed-too-warm",
           OHMWRIGHT_TEXT("Closed at {temperature}. A good one is open from {opens_by} up at the latest (the chance of "
                          "finding one closed here is {chance_percent} %): its contact is welded, or it opens far too "
                          "late, and its heater runs on until something else stops it.")},
          {"open-too-cold",
           OHMWRIGHT_TEXT("Open at {temperature}. A good one is closed from {closes_by} down (the chance of finding "
                          "one open here is {chance_percent} %): it is stuck open, or it closes far too cold, and "
                          "its heater gets no supply.")},
          {"closed-too-warm-connection-unstated",
           OHMWRIGHT_TEXT("Closed at {temperature}, where a good one is open (from {opens_by} up at the latest). It "
                          "was not said that a lead was off, and in circuit another path can look closed. Read with a "
                          "lead off (--lead-off), this condemns it.")},
          {"closed-as-type-1",
           OHMWRIGHT_TEXT("Closed at {temperature}, and rated to open by {opens_by}. It is a type 1 part, for which no "
                          "trip value is promised: it may have drifted, or be welded.")},
          {"open-as-type-1",
           OHMWRIGHT_TEXT("Open at {temperature}, and rated to close by {closes_by}. It is a type 1 part, for which no "
                          "trip value is promised: it may have drifted, or be stuck open.")},
          {"closed-as-it-should",
           OHMWRIGHT_TEXT("Closed at {temperature}, as a good one is (closed from {closes_by} down). That it opens "
                          "again as it warms has not been shown.")},
          {"open-as-it-should",
           OHMWRIGHT_TEXT("Open at {temperature}: normal. A good one is open from {opens_by} up, so this says nothing "
                          "against it; that it closes when cold has not been shown.")},
          {"closed-and-either-is-good",
           OHMWRIGHT_TEXT(
               "Closed at {temperature}. Between {closes_by} and {opens_by} a good one may be closed or "
               "open: coming from the cold {from_cold_chance_percent} % of them are still closed here, coming from "
               "the warm {from_warm_chance_percent} % are closed already.")},
          {"open-and-either-is-good",
           OHMWRIGHT_TEXT(
               "Open at {temperature}. Between {closes_by} and {opens_by} a good one may be closed or open: "
               "coming from the cold {from_cold_chance_percent} % of them are still closed here, coming from the "
               "warm {from_warm_chance_percent} % are closed already.")},
          {"right-at-both-ends",
           OHMWRIGHT_TEXT(
               "It switches: closed at {cold} and open at {warm}, as a good one is, so it is neither welded nor stuck "
               "open. Where between them it opens and closes is not known.")},
          {"leaks-where-open",
           OHMWRIGHT_TEXT("{ohms} at {temperature}: not closed, but not cleanly open either. With a lead off and dry "
                          "hands that is moisture or dirt; in circuit it is the timer motor and the heater beside "
                          "it.")},
          {"poor-contact",
           OHMWRIGHT_TEXT(
               "{ohms} across the contact: too much for a closed one, too little for an open one. That looks "
               "like the heater beside it: is a lead really off? Else it is a dirty contact or terminal.")},
          {"no-ratings",
           OHMWRIGHT_TEXT("It is not known at which temperature this part opens and closes, so neither closed nor open "
                          "is right or wrong. A defrost thermostat is open in a warm room: that is normal (common "
                          "practice); frozen through it has to close.")},
          {"no-state", OHMWRIGHT_TEXT("Not judged: the contact was not read.")},
          {"no-temperature",
           OHMWRIGHT_TEXT("The temperature of the part was not given, and without it neither closed nor open is "
                          "right or wrong.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: it was read in circuit only, where a contact that is not OL need not be "
                          "closed.")},
          {"only-live",
           OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again.")},
          {"trip-points-tell-more",
           OHMWRIGHT_TEXT("Not judged: no reading is out of place, and where it opened and closed tells more.")},
          {"right-at-both-ends-as-type-1",
           OHMWRIGHT_TEXT(
               "It switches: closed at {cold} and open at {warm}, as a good one is, so it is neither welded nor stuck "
               "open. It is a type 1 part, for which no trip value is promised: there is no more to hold it to.")},
          {"comes-and-goes",
           OHMWRIGHT_TEXT(
               "Closed at {closed_at} and open at {open_at}, with nothing to warm or cool it in between. A thermostat "
               "does not change at one temperature: its contact comes and goes, or one of the two readings was "
               "wrong.")},
          {"reversed",
           OHMWRIGHT_TEXT(
               "Closed at {warm}, where a good one is open, and open at {cold}, where a good one is closed: the "
               "reverse of a defrost thermostat. Either readings were mixed up, or it is a switch that closes as it "
               "warms, and the wrong part here.")},
          {"ohms-jump",
           OHMWRIGHT_TEXT(
               "The repeated ohms of the contact jump by about {scatter_percent} %, so their mean is none of them: it "
               "comes and goes, at the probes or in the contact.")},
          {"range-too-coarse",
           OHMWRIGHT_TEXT(
               "The contact was read on the range of {range}, where the meter may be off by {doubt}: a closed one (up "
               "to {closed}) and a bad one look alike there. Only the lowest range of ohms tells it.")},
          {"range-too-low",
           OHMWRIGHT_TEXT(
               "The meter shows over-range, but more than {range} is no open contact. A range that reaches to {open} "
               "or farther tells it; say which it was.")},
          {"closed-though-cooled",
           OHMWRIGHT_TEXT(
               "Closed at {temperature}, having cooled down to there from where it opens. A good one that came this "
               "way is still open from {opens_by} up (the chance of finding one closed here is {chance_percent} %): "
               "it never opened, or it closes too warm.")},
          {"open-though-warmed",
           OHMWRIGHT_TEXT(
               "Open at {temperature}, having warmed up to there from where it closes. A good one that came this way "
               "is still closed from {closes_by} down (the chance of finding one open here is {chance_percent} %): it "
               "never closed, or it opens too cold, and ends its defrosts too early.")},
          {"closed-as-this-way",
           OHMWRIGHT_TEXT(
               "Closed at {temperature}, as a good one is that came this way (closed from {closes_by} down). "
               "That it opens again as it warms has not been shown.")},
          {"open-as-this-way",
           OHMWRIGHT_TEXT("Open at {temperature}, as a good one is that came this way (open from {opens_by} up). That "
                          "it closes when cold has not been shown.")},
          {"closed-and-good-this-way",
           OHMWRIGHT_TEXT("Closed at {temperature}. Of good ones that came this way {chance_percent} % may be closed "
                          "here, so that decides nothing.")},
          {"open-and-good-this-way",
           OHMWRIGHT_TEXT("Open at {temperature}. Of good ones that came this way {chance_percent} % may be open here, "
                          "so that decides nothing.")},
          {"open-too-cold-pair",
           OHMWRIGHT_TEXT("Open at {temperature}. A good one is closed from {closes_by} down (the chance of finding "
                          "one open here is {chance_percent} %): its thermostat is stuck open, or the thermal link "
                          "behind the same two wires has opened, and its heater gets no supply.")},
          {"open-too-cold-connection-unstated",
           OHMWRIGHT_TEXT(
               "Open at {temperature}. A good one is closed from {closes_by} down (the chance of finding one open "
               "here is {chance_percent} %): it is stuck open, or it closes far too cold. Without --lead-off "
               "something may still have been connected: a path beside it makes no closed one read open, a charged "
               "capacitor or a powered board might (--proved-dead rules that out).")},
          {"comes-and-goes-surely",
           OHMWRIGHT_TEXT("A lead off, it went from closed to open and back {count} times with nothing to warm or cool "
                          "it in between, last closed at {closed_at} and open at {open_at}. A thermostat does not "
                          "change at one temperature: its contact or its own lead comes and goes.")},
      }};
}

}  // namespace ohmwright::bimetal_thermostat
