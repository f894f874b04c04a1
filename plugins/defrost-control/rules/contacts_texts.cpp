#include "rules/contacts_texts.hpp"

#include <ohmwright/quantity/message.hpp>

#include "rules/contacts.hpp"

namespace ohmwright::defrost_control {

RuleDescriptor describe_contacts() {
  return {
      "contacts",
      OHMWRIGHT_TEXT("The contacts follow the position"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "one cam, one closed contact: how such a timer is built; a passive path beside a contact can only lower its ohms "
      "(Kirchhoff)",
      {
          // in the order of ContactsText
          {"follow-position", OHMWRIGHT_TEXT("In run only the run contact is closed, in defrost only the defrost "
                                             "contact: they follow the cam. How well they conduct under load, ohms do "
                                             "not show.")},
          {"board-switches",
           OHMWRIGHT_TEXT("It feeds the heater in a defrost, under load, and does not feed it otherwise.")},
          {"stuck-in-run",
           OHMWRIGHT_TEXT("Set to defrost, the run contact is still closed and the defrost contact open: "
                          "it is stuck in run, and the heater never gets its supply.")},
          {"stuck-in-defrost",
           OHMWRIGHT_TEXT("Set to run, the defrost contact is still closed and the run contact open: it is stuck in "
                          "defrost, and the compressor never gets its supply.")},
          {"run-contact-welded",
           OHMWRIGHT_TEXT("In defrost the run contact is closed too: it is welded, and the compressor runs on against "
                          "the heater.")},
          {"defrost-contact-welded",
           OHMWRIGHT_TEXT("In run the defrost contact is closed too: it is welded, and the heater is on whenever its "
                          "thermostat is closed.")},
          {"run-contact-open",
           OHMWRIGHT_TEXT("In run the run contact is open: neither compressor nor fan gets its supply.")},
          {"defrost-contact-open",
           OHMWRIGHT_TEXT("In defrost the defrost contact is open: the heater never gets its supply.")},
          {"both-closed", OHMWRIGHT_TEXT("Both contacts are closed at once, which no position does: one is welded.")},
          {"none-closed",
           OHMWRIGHT_TEXT("Both contacts are open at once: neither heater nor compressor gets its supply. If the cam "
                          "stands just between its positions, turn it on and read again.")},
          {"relay-welded",
           OHMWRIGHT_TEXT("Without power the contact to the heater is closed: the relay is welded, or the switch is "
                          "shorted, and the heater is on whenever its thermostat is closed.")},
          {"comes-and-goes", OHMWRIGHT_TEXT("The same contact read closed once and open another time in one position: "
                                            "it comes and goes, or the probes did.")},
          {"poor-contact",
           OHMWRIGHT_TEXT("A contact reads too much for a closed one and too little for an open one. In circuit that "
                          "is what lies beside it; with its wire off it is burnt or dirty.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("A contact reads closed, but it was not said that its wire was off: heater, thermostat and "
                          "compressor beside it can look like that.")},
          {"one-contact-only", OHMWRIGHT_TEXT("Right as far as it was read, but not both contacts were read in both "
                                              "positions.")},
          {"run-position-only", OHMWRIGHT_TEXT("In run nothing is wrong with the contacts. That they change over in "
                                               "defrost has not been shown.")},
          {"defrost-position-only", OHMWRIGHT_TEXT("In defrost nothing is wrong with the contacts. That they change "
                                                   "back in run has not been shown.")},
          {"position-unstated", OHMWRIGHT_TEXT("In which position the contacts were read was not said, so neither "
                                               "open nor closed is right or wrong.")},
          {"by-output-only",
           OHMWRIGHT_TEXT("The volts at its output were right. What the run contact does has not been "
                          "shown.")},
          {"board-at-rest",
           OHMWRIGHT_TEXT("Without power a board's relay has dropped out: open there is normal, and says nothing of "
                          "what it does in a defrost.")},
          {"board-not-seen-off", OHMWRIGHT_TEXT("It feeds the heater in a defrost. That it stops feeding it in run has "
                                                "not been shown.")},
          {"board-not-seen-on", OHMWRIGHT_TEXT("It does not feed the heater in run, as it should be. That it does in a "
                                               "defrost has not been shown.")},
          {"type-unknown",
           OHMWRIGHT_TEXT("It is not known whether this is a timer or a board. A board's contacts do not follow its "
                          "program without power, so these readings do not tell.")},
          {"not-read", OHMWRIGHT_TEXT("Not judged: its contacts were not read with a wire off.")},
          {"board-not-read",
           OHMWRIGHT_TEXT("Not judged: its output was not read under load, in a defrost and in run.")},
          {"closed-contact-resists",
           OHMWRIGHT_TEXT(
               "A contact reads {ohms} with the test leads taken off, and a good closed one has at most {limit}: that "
               "is neither closed nor open. It is burnt or dirty, or the leads have more than was taken off.")},
          {"range-too-coarse",
           OHMWRIGHT_TEXT(
               "A contact was read on the range of {range}, where the meter may be off by {doubt}: a closed one and a "
               "bad one look alike there. Only the lowest range of ohms tells it.")},
          {"range-too-low",
           OHMWRIGHT_TEXT(
               "The meter shows over-range, but more than {range} is no open contact. A range that reaches to {open} "
               "or farther tells it; say which it was.")},
      }};
}

}  // namespace ohmwright::defrost_control
