#pragma once

#include <iosfwd>
#include <optional>
#include <string>

#include <ohmwright/locate/search.hpp>

#include "environment.hpp"
#include "instrument_readings.hpp"
#include "locate/readings.hpp"

namespace ohmwright::cli {

enum class DialogueFrom { first_question, next_step };

/// Asks step by step until a part is named, no step is left, or the person stops: first what is seen, then one reading
/// after another. Every question is answered by a digit, but for a reading, which is typed, or read by `source` when an
/// empty line is typed for it, and for a temperature. Ends where `in` ends.
///
/// Gives what was said of a zone, "coil=-18C": the search then has to go on at that site. Nothing where it has ended.
std::optional<std::string> run_dialogue(locate::Search& search, const TypedReadings& how, std::istream& in,
                                        Environment& environment, const ValueSource& source = {},
                                        DialogueFrom from = DialogueFrom::first_question);

}  // namespace ohmwright::cli
