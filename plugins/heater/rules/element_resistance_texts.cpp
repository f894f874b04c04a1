#include "rules/element_resistance_texts.hpp"

#include "rules/element_resistance.hpp"

namespace ohmwright::heater {

RuleDescriptor describe_element_resistance() {  // texts in the order of ElementResistanceText
  return {
      "element-resistance",
      OHMWRIGHT_TEXT("Resistance of the element"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "R = V^2/(P*Ct), Ct of alloy makers' tables; JCGM 106:2012 (conformance probability)",
      {
          {"cold-within",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}.")},
          {"cold-low",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}, {off_percent} % less, as if part of its wire were bridged: it draws too much, "
                          "and what is left runs too hot.")},
          {"cold-high",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}, {off_percent} % more: it heats too little, or a joint between the probes is "
                          "bad.")},
          {"cold-far-high",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}: as good as open, or a k or an M too much was read.")},
          {"cold-one-of-two",
           OHMWRIGHT_TEXT("Cold, the pair reads {lower} to {upper} when it is good. This one reads {measured}, about "
                          "twice as much: one of its two elements is open, and it makes half of its heat.")},
          {"cold-unsure",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}: with this meter too near to an end to tell.")},
          {"brought-within",
           OHMWRIGHT_TEXT(
               "At {reference} a good one reads {lower} to {upper}, {nominal} by its rating. This one was read at "
               "{read_at}; brought to {reference} it has {measured}.")},
          {"brought-low",
           OHMWRIGHT_TEXT(
               "At {reference} a good one reads {lower} to {upper}, {nominal} by its rating. This one was read at "
               "{read_at}; brought to {reference} it has {measured}, {off_percent} % less: it draws too much.")},
          {"brought-high",
           OHMWRIGHT_TEXT(
               "At {reference} a good one reads {lower} to {upper}, {nominal} by its rating. This one was read at "
               "{read_at}; brought to {reference} it has {measured}, {off_percent} % more: it heats too little, or "
               "a joint between the probes is bad.")},
          {"brought-unsure",
           OHMWRIGHT_TEXT(
               "At {reference} a good one reads {lower} to {upper}, {nominal} by its rating. This one was read at "
               "{read_at}; brought to {reference} it has {measured}: too near to an end to tell.")},
          {"low-connection-unstated",
           OHMWRIGHT_TEXT(
               "It reads {measured}, below the {lower} to {upper} of a good one, but it was not said whether "
               "a lead was off. Still connected, another path beside it can make it read low.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}. It was not said whether a lead was off; it is taken as off.")},
          {"by-load-within", OHMWRIGHT_TEXT("Judged by what it draws, and that is right; hot, its wire has {hot}.")},
          {"by-load-high",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, more than the "
                          "{lower} to {upper} of a good one. Hot, its wire has {hot}: part of it is bridged, or "
                          "something else draws beside it.")},
          {"by-load-low",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, less than the "
                          "{lower} to {upper} of a good one. An element of it is open, or a joint on the way is bad.")},
          {"by-load-unsure",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, and a good one "
                          "makes {lower} to {upper}: with these instruments too near to an end to tell.")},
          {"by-load-gains-more",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, and a good one "
                          "makes {lower} to {upper}. Cold it reads low, {cold}, but hot its wire has {hot}: its alloy "
                          "gains more than the usual ones do.")},
          {"contradicting",
           OHMWRIGHT_TEXT(
               "Cold it reads {cold}, where a good one has {lower} to {upper}, but by what it draws its wire "
               "has {hot} when hot, as a good one has. No wire does both: one of the readings is wrong.")},
          {"disagreeing", OHMWRIGHT_TEXT("The readings do not agree with each other, so together they prove nothing.")},
          {"jumping",
           OHMWRIGHT_TEXT("The repeated readings jump by about {scatter_percent} %, so their mean says nothing: a "
                          "contact comes and goes, at the probes, in a lead or in the element.")},
          {"no-ratings",
           OHMWRIGHT_TEXT("Nothing is known of this heater, so only open and short can be told: name its ratings, the "
                          "volts and watts on its plate.")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: neither its ohms nor what it draws was read.")},
          {"load-leaves-open",
           OHMWRIGHT_TEXT(
               "Not judged: its cold ohms were not read, and what it draws does not tell whether it is good.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: it was read in circuit only, where other paths lie beside it.")},
          {"only-live",
           OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again.")},
      }};
}

}  // namespace ohmwright::heater
