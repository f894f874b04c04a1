#include "part/comparison_texts.hpp"

#include <ohmwright/quantity/message.hpp>

namespace ohmwright::kind_file {

void add_finding(std::vector<EquivalenceFinding>& findings, Outcome outcome, const TextEntry& text,
                 std::initializer_list<FindingArgument> arguments) {
  EquivalenceFinding& finding = findings.emplace_back();
  finding.outcome = outcome;
  finding.text = text;
  finding.arguments.assign(arguments.begin(), arguments.end());
}

}  // namespace ohmwright::kind_file

namespace ohmwright::kind_file::comparison_texts {

const TextEntry figure_alike{"figure-alike", OHMWRIGHT_TEXT("{what}: {candidate}, of the original {original}.")};
const TextEntry figure_differs{"figure-differs",
                               OHMWRIGHT_TEXT("{what}: {candidate}, of the original {original}: it is another part.")};
const TextEntry figure_other{"figure-other",
                             OHMWRIGHT_TEXT("{what}: {candidate}, of the original {original}: whether that will do is "
                                            "for the place where it works to say.")};
const TextEntry figure_enough{
    "figure-enough", OHMWRIGHT_TEXT("{what}: {candidate}, of the original {original}: as much or more will do.")};
const TextEntry figure_too_little{
    "figure-too-little", OHMWRIGHT_TEXT("{what}: {candidate}, of the original {original}: it must not have less.")};
const TextEntry figure_little_enough{
    "figure-little-enough",
    OHMWRIGHT_TEXT("{what}: {candidate}, of the original {original}: as much or less will do.")};
const TextEntry figure_too_much{
    "figure-too-much", OHMWRIGHT_TEXT("{what}: {candidate}, of the original {original}: it must not have more.")};
const TextEntry figure_unknown{"figure-unknown",
                               OHMWRIGHT_TEXT("{what}: of the original {original}, of this one not stated.")};
const TextEntry figure_not_asked{"figure-not-asked",
                                 OHMWRIGHT_TEXT("{what}: of this one {candidate}, of the original not stated.")};

const TextEntry limits_alike{"limits-alike",
                             OHMWRIGHT_TEXT("{what}: a good one has {lower} to {upper}, a good original "
                                            "{original_lower} to {original_upper}.")};
const TextEntry limits_partly_alike{
    "limits-partly-alike", OHMWRIGHT_TEXT("{what}: a good one has {lower} to {upper}, a good original {original_lower} "
                                          "to {original_upper}: not every such part lies within that.")};
const TextEntry limits_differ{"limits-differ",
                              OHMWRIGHT_TEXT("{what}: a good one has {lower} to {upper}, a good original "
                                             "{original_lower} to {original_upper}: it is another part.")};
const TextEntry most_alike{"most-alike", OHMWRIGHT_TEXT("{what}: {candidate} at most, of the original {original}.")};
const TextEntry most_differs{
    "most-differs", OHMWRIGHT_TEXT("{what}: {candidate} at most, of the original {original}: it may have more.")};
const TextEntry least_alike{"least-alike", OHMWRIGHT_TEXT("{what}: {candidate} at least, of the original {original}.")};
const TextEntry least_differs{
    "least-differs", OHMWRIGHT_TEXT("{what}: {candidate} at least, of the original {original}: it may have less.")};
const TextEntry limits_unknown{
    "limits-unknown", OHMWRIGHT_TEXT("{what}: the ratings of one of the two do not state its limits, so they cannot be "
                                     "held against each other.")};
const TextEntry limits_of_conditions{
    "limits-of-conditions", OHMWRIGHT_TEXT("{what}: its limits depend on circumstances that are not given here.")};

const TextEntry switching_alike{"switching-alike",
                                OHMWRIGHT_TEXT("{what}: good ones switch between {lower} and {upper}, good originals "
                                               "between {original_lower} and {original_upper}.")};
const TextEntry switching_differs{
    "switching-differs",
    OHMWRIGHT_TEXT("{what}: good ones switch between {lower} and {upper}, good originals between "
                   "{original_lower} and {original_upper}: it may switch where no original does.")};
const TextEntry switching_elsewhere{
    "switching-elsewhere",
    OHMWRIGHT_TEXT("{what}: good ones switch between {lower} and {upper}, good originals between "
                   "{original_lower} and {original_upper}: its trip points are others.")};
const TextEntry end_alike{"end-alike",
                          OHMWRIGHT_TEXT("{what}: its state is sure from {candidate} on, that of the original from "
                                         "{original} on.")};
const TextEntry end_differs{"end-differs",
                            OHMWRIGHT_TEXT("{what}: its state is sure from {candidate} on, that of the original from "
                                           "{original} on: it may be in the wrong one where no original is.")};
const TextEntry end_elsewhere{"end-elsewhere",
                              OHMWRIGHT_TEXT("{what}: its state is sure from {candidate} on, that of the original from "
                                             "{original} on: its trip point is another.")};

const TextEntry nothing_stated{
    "nothing-stated", OHMWRIGHT_TEXT("The ratings of the two state nothing that could be held against each other.")};
const TextEntry not_in_ratings{
    "not-in-ratings", OHMWRIGHT_TEXT("What no ratings state: size, fastening, terminals and approvals. Hold the two "
                                     "side by side before one is fitted.")};

}  // namespace ohmwright::kind_file::comparison_texts
