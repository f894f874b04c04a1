#include <ohmwright/quantity/message.hpp>

#include "model/texts.hpp"

namespace ohmwright::kind_file {

namespace {

constexpr FieldSet of_value = only(Field::measured) | only(Field::least);
constexpr FieldSet of_test = of_value | only(Field::volts);
constexpr FieldSet past_range = only(Field::least);
constexpr FieldSet of_test_past_range = past_range | only(Field::volts);

constexpr std::array<TextRow, insulation_text_count> texts_of_insulation{{
    {"insulates", "", OHMWRIGHT_TEXT("To the frame it has {measured}, tested with {volts}; {least} is the least."),
     of_test},
    {"insulates-past-range", "",
     OHMWRIGHT_TEXT("To the frame the tester shows more than its range, at {volts}; {least} is the least."),
     of_test_past_range},
    {"leaks", "",
     OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least. Do not energise it: the frame "
                    "may become live."),
     of_value},
    {"leaks-while-wet", "",
     OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least, but it was wet. Do not energise "
                    "it; dry it and test again."),
     of_value},
    {"leaks-connection-unstated", "",
     OHMWRIGHT_TEXT("To the frame it reads only {measured}, where {least} is the least, but it was not said whether "
                    "its leads were off: something still connected may be what leaks. Do not energise it."),
     of_value},
    {"not-told-apart", "",
     OHMWRIGHT_TEXT("To the frame it has {measured}, too near to the {least} it needs at least to tell. Do not "
                    "energise it until that is decided."),
     of_value},
    {"ohmmeter-is-no-tester", "",
     OHMWRIGHT_TEXT("To the frame it reads {measured}, but an ohmmeter has a few volts only: that finds a short to "
                    "the frame and proves no insulation. Do not energise it yet."),
     of_value},
    {"ohmmeter-past-range", "",
     OHMWRIGHT_TEXT("To the frame the ohmmeter shows OL, so there is no short; with its few volts it proves no "
                    "insulation. The least is {least}, at 500 V; do not energise it yet."),
     past_range},
    {"few-volts", "",
     OHMWRIGHT_TEXT("To the frame it reads {measured}, tested with {volts}: too few to prove insulation against the "
                    "mains. Test it with 500 V, and do not energise it yet."),
     of_test},
    {"few-volts-past-range", "",
     OHMWRIGHT_TEXT("To the frame the tester shows more than its range; with {volts} that proves no insulation "
                    "against the mains. The least is {least}, at 500 V; do not energise it yet."),
     of_test_past_range},
    {"leaks-at-more-volts", "",
     OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least, but it was tested with {volts}: "
                    "with more than 500 V a surge arrester may conduct. Do not energise it; test it again with 500 V."),
     of_test},
    {"repeats-differ", "",
     OHMWRIGHT_TEXT("To the frame the repeated readings differ, {measured} in the mean, and the lowest counts: one of "
                    "them may be below the {least} it needs. Give each by itself, the volts of the test behind each. "
                    "Do not energise it until that is decided."),
     of_value},
    {"still-to-read", "",
     OHMWRIGHT_TEXT("Its insulation to the frame was not read, and what else was read says nothing of it: it is not "
                    "yet proved safe to energise."),
     0},
    {"not-read", "",
     OHMWRIGHT_TEXT("Not judged: the insulation to the frame was not read, and other ohms say nothing of it."), 0},
    {"no-figure", "", OHMWRIGHT_TEXT("Not judged: the ratings of this part do not state its least insulation."), 0},
    {"live", "", OHMWRIGHT_TEXT("Not judged: insulation is never read on a live part."), 0},
}};

}  // namespace

const std::array<TextRow, insulation_text_count>& insulation_texts() { return texts_of_insulation; }

}  // namespace ohmwright::kind_file
