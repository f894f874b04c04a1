#include "rules/end_to_end_texts.hpp"

#include "rules/end_to_end.hpp"

namespace ohmwright::wiring {

RuleDescriptor describe_end_to_end() {  // texts in the order of EndToEndText
  return {
      "end-to-end",
      OHMWRIGHT_TEXT("Ohms from end to end"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "IEC 60228 (maximum resistance of conductors at 20 degC) and 0.00393 /K of copper, and the contact resistance "
      "that "
      "the ratings state; JCGM 106:2012 (conformance probability)",
      {
          {"ohms-within", OHMWRIGHT_TEXT("It has {measured} from end to end; a good one has {limit} at most.")},
          {"ohms-high",
           OHMWRIGHT_TEXT("It has {measured} from end to end, and a good one has {limit} at most: a crimp, a joint or "
                          "broken strands.")},
          {"ohms-unsure",
           OHMWRIGHT_TEXT("It has {measured} from end to end, and a good one has {limit} at most: with this meter too "
                          "near to tell.")},
          {"below-the-leads",
           OHMWRIGHT_TEXT("It is not open, and more cannot be told: a good one has {limit} at most, and meter and test "
                          "leads leave {doubt} open. The volts across it under load tell.")},
          {"less-than-leads",
           OHMWRIGHT_TEXT(
               "It reads less than the test leads that are taken off it: the meter was zeroed with its probes "
               "shorted, or these are other leads.")},
          {"fewer-than-copper",
           OHMWRIGHT_TEXT(
               "It reads {measured}, less than the {copper} that copper of this length has by itself: the "
               "probes were not across all of it, another path lay beside it, or its length or cross-section "
               "is another.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("It reads {measured}, and a good one has {limit} at most, but it was not said whether one of "
                          "its ends was off: another path beside it may be what was read.")},
          {"drop-within",
           OHMWRIGHT_TEXT(
               "By its volts under load it has {measured} from end to end; a good one has {limit} at most.")},
          {"drop-high",
           OHMWRIGHT_TEXT("By its volts under load it has {measured} from end to end, and a good one has {limit} at "
                          "most: a crimp, a joint or broken strands.")},
          {"drop-unsure",
           OHMWRIGHT_TEXT("By its volts under load it has {measured} from end to end, and a good one has {limit} at "
                          "most: with these instruments too near to tell.")},
          {"less-than-copper",
           OHMWRIGHT_TEXT(
               "By its volts under load it has {measured}, less than the {copper} that copper of this length "
               "has by itself: the clips were not across all of it, the clamp held other wires too, or its "
               "length or cross-section is another.")},
          {"contradicting",
           OHMWRIGHT_TEXT(
               "The meter reads {measured}, but by its volts under load it has only {by_drop}: the probes sat "
               "badly, or the joint comes and goes.")},
          {"disagreeing",
           OHMWRIGHT_TEXT("No single figure is its resistance: the readings do not agree with each other.")},
          {"only-continuity",
           OHMWRIGHT_TEXT("It is not open. A buzzer sounds up to tens of ohms, so it says nothing of a bad joint.")},
          {"high-without-ratings",
           OHMWRIGHT_TEXT("It reads {measured}, where no sound wiring of an appliance has more than {most}. It looks "
                          "bad; name its ratings to decide it.")},
          {"no-ratings",
           OHMWRIGHT_TEXT(
               "Nothing is known of this one, so only an open one and a leak can be told: name its ratings.")},
          {"no-length", OHMWRIGHT_TEXT("Not judged: how long the lead is decides what it may have (--length 1.5m).")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: neither its ohms nor the volts across it under load were read.")},
          {"drop-leaves-open",
           OHMWRIGHT_TEXT("Not judged: its ohms were not read, and the volts across it do not tell them yet.")},
          {"only-in-circuit", OHMWRIGHT_TEXT("Not judged: its ohms were read in circuit only, where other paths lie "
                                             "beside it.")},
          {"only-live",
           OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again.")},
      }};
}

}  // namespace ohmwright::wiring
