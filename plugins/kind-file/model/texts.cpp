#include "model/texts.hpp"

#include <ohmwright/quantity/message.hpp>

namespace ohmwright::kind_file {

namespace {

constexpr std::array<std::string_view, field_count> field_names{
    "measured",       "lower",         "upper",        "nominal",    "off_percent", "at",
    "count",          "range",         "closed_below", "open_above", "open_below",  "closed_above",
    "chance_percent", "share_percent", "least",        "volts",      "shown",       "missing"};

constexpr FieldSet of_limits = only(Field::measured) | only(Field::lower) | only(Field::upper) | only(Field::nominal) |
                               only(Field::off_percent) | only(Field::at);
constexpr FieldSet of_over_range = only(Field::range) | only(Field::lower) | only(Field::upper) | only(Field::at);
constexpr FieldSet of_state = only(Field::at) | only(Field::closed_below) | only(Field::open_above) |
                              only(Field::open_below) | only(Field::closed_above) | only(Field::chance_percent);
// Where a contact is right or wrong one end of its rule is known for certain; which one, the reader of texts knows.

constexpr std::array<TextRow, limits_text_count> texts_of_limits{{
    {"within", "what is said of a reading within the limits", "", of_limits},
    {"high", "what is said of a reading above the upper limit", "", of_limits},
    {"low", "what is said of a reading below the lower limit", "", of_limits},
    {"undecided", "what is said of a reading too close to a limit to tell", "", of_limits},
    {"within-connection-unstated", "",
     OHMWRIGHT_TEXT("It reads {measured}, within its limits. It was not said whether a lead was off; it is taken as "
                    "off."),
     of_limits},
    {"connection-unstated", "",
     OHMWRIGHT_TEXT("It reads {measured}, beyond its limits, but it was not said whether a lead was off. Another path "
                    "beside it can do that."),
     of_limits},
    {"readings-disagree", "",
     OHMWRIGHT_TEXT("Its readings do not agree with each other, so together they prove nothing."), only(Field::count)},
    {"over-range", "", OHMWRIGHT_TEXT("The meter shows more than {range}, and a good part reads at most {upper}."),
     of_over_range},
    {"over-range-within", "",
     OHMWRIGHT_TEXT("The meter shows more than {range}, and a good part reads at least {lower}."), of_over_range},
    {"range-too-low", "",
     OHMWRIGHT_TEXT("The meter shows more than {range}, but a good part may read more than that too: choose a higher "
                    "range."),
     only(Field::range)},
    {"range-unknown", "", OHMWRIGHT_TEXT("The meter shows over-range, but on which range is not known: say the range."),
     0},
    {"in-circuit", "",
     OHMWRIGHT_TEXT("It was read in circuit only, where other paths lie beside it: that decides nothing."), 0},
    {"not-read", "", OHMWRIGHT_TEXT("Not judged: no value of it was read."), 0},
    {"no-condition", "",
     OHMWRIGHT_TEXT("Not judged: a circumstance that its limits depend on was not given with the reading."), 0},
    {"out-of-reach", "", OHMWRIGHT_TEXT("Not judged: its limits do not reach that far."), 0},
    {"no-figure", "", OHMWRIGHT_TEXT("Not judged: the ratings of this part do not state its limits."), 0},
    {"wet", "", OHMWRIGHT_TEXT("Not judged: it was read wet only, and water can lower the reading."), 0},
    {"live", "", OHMWRIGHT_TEXT("Not judged: read on a live circuit it means nothing. Unplug, prove dead, read again."),
     0},
    {"needs-tester", "",
     OHMWRIGHT_TEXT("An ohmmeter with its few volts proves no insulation by that, and what reads so high may as well "
                    "be a broken wire."),
     only(Field::lower)},
}};

constexpr std::array<TextRow, contact_text_count> texts_of_contacts{{
    {"closed-right", "what is said of a part that is closed where it has to be", "", of_state},
    {"open-right", "what is said of a part that is open where it has to be", "", of_state},
    {"both-right", "", OHMWRIGHT_TEXT("Once it was found closed and once open, each time where a good one is."), 0},
    {"closed-wrong", "what is said of a part that is closed where it has to be open", "", of_state},
    {"open-wrong", "what is said of a part that is open where it has to be closed", "", of_state},
    {"closed-either", "",
     OHMWRIGHT_TEXT("Closed at {at}, where a good one may be closed or open: that decides nothing."), only(Field::at)},
    {"open-either", "", OHMWRIGHT_TEXT("Open at {at}, where a good one may be closed or open: that decides nothing."),
     only(Field::at)},
    {"poor", "",
     OHMWRIGHT_TEXT("It reads {measured}: too much for a closed contact, too little for an open one. Clean the "
                    "terminals and read again."),
     only(Field::measured)},
    {"connection-unstated", "",
     OHMWRIGHT_TEXT("It looks closed, but it was not said that a lead was off: another path beside it can look "
                    "closed."),
     0},
    {"in-circuit", "",
     OHMWRIGHT_TEXT("It was read in circuit, where another path beside it can look closed: that decides nothing."), 0},
    {"open-in-circuit", "",
     OHMWRIGHT_TEXT("It reads open in circuit. Prove the points dead and read again, then it is certain."), 0},
    {"not-read", "", OHMWRIGHT_TEXT("Not judged: it was not read."), 0},
    {"no-condition", "",
     OHMWRIGHT_TEXT("Not judged: whether it should be closed depends on a circumstance that was not given with the "
                    "reading. \"ohmwright kinds\" with its name lists them, with their options."),
     0},
    {"no-figure", "", OHMWRIGHT_TEXT("Not judged: the ratings of this part do not state where it opens and closes."),
     0},
    {"live", "",
     OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again."), 0},
    {"comes-and-goes", "",
     OHMWRIGHT_TEXT("Its readings jump, so their mean is none of its values: it comes and goes, in the part or at the "
                    "probes."),
     0},
    {"range-too-coarse", "",
     OHMWRIGHT_TEXT("It was read on the range of {range}, where a closed contact and a bad one look alike. Only the "
                    "lowest range of ohms tells it."),
     only(Field::range)},
    {"range-too-low", "",
     OHMWRIGHT_TEXT("The meter shows over-range, but more than {range} is no open contact: choose a higher range, or "
                    "say which it was."),
     only(Field::range)},
    {"right-alone", "",
     OHMWRIGHT_TEXT("In circuit it reads open, though it is closed when it is read alone, and that counts: look at the "
                    "lead, splice or connector between it and the probes."),
     0},
    {"states-to-read", "",
     OHMWRIGHT_TEXT("Right as far as it was read, but a fault may sit where it was not. Still to read: {missing}."),
     only(Field::missing)},
}};

}  // namespace

std::string_view name_of(Field field) { return field_names[static_cast<std::size_t>(field)]; }
const std::array<TextRow, limits_text_count>& limits_texts() { return texts_of_limits; }
const std::array<TextRow, contact_text_count>& contact_texts() { return texts_of_contacts; }

}  // namespace ohmwright::kind_file
