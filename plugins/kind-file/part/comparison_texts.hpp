#pragma once

#include <initializer_list>
#include <vector>

#include <ohmwright/component/comparison.hpp>
#include <ohmwright/component/descriptor.hpp>

// What is said of two parts of a kind that is a file. {what} is the title of a figure or of a rule.

namespace ohmwright::kind_file {

void add_finding(std::vector<EquivalenceFinding>& findings, Outcome outcome, const TextEntry& text,
                 std::initializer_list<FindingArgument> arguments);

}  // namespace ohmwright::kind_file

namespace ohmwright::kind_file::comparison_texts {

extern const TextEntry figure_alike;
extern const TextEntry figure_differs;
extern const TextEntry figure_other;
extern const TextEntry figure_enough;
extern const TextEntry figure_too_little;
extern const TextEntry figure_little_enough;
extern const TextEntry figure_too_much;
extern const TextEntry figure_unknown;
extern const TextEntry figure_not_asked;

extern const TextEntry limits_alike;
extern const TextEntry limits_partly_alike;
extern const TextEntry limits_differ;
extern const TextEntry most_alike;
extern const TextEntry most_differs;
extern const TextEntry least_alike;
extern const TextEntry least_differs;
extern const TextEntry limits_unknown;
extern const TextEntry limits_of_conditions;

extern const TextEntry switching_alike;
extern const TextEntry switching_differs;
extern const TextEntry switching_elsewhere;
extern const TextEntry end_alike;
extern const TextEntry end_differs;
extern const TextEntry end_elsewhere;

extern const TextEntry nothing_stated;
extern const TextEntry not_in_ratings;

}  // namespace ohmwright::kind_file::comparison_texts
