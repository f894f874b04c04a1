#pragma once

#include <iosfwd>
#include <optional>
#include <string>

#include <ohmwright/locate/search.hpp>

#include "environment.hpp"
#include "instrument_readings.hpp"
#include "locate/readings.hpp"

namespace ohmwright::cli {

/// Asks step by step until a part is named, no step is left, or the person stops: first what is seen, then one reading
/// after another. Every question is answered by a digit, but for a reading, which is typed, or read by `source` when an
/// empty line is typed for it, and for a temperature. Ends where `in` ends.
///
/// Gives what was said of a zone, "coil=-18C", or "coil=unknown" where that is taken back: the search then has to go on
/// at that site, with `said_before` being that. Nothing where it has ended. Empty, it begins with the first question.
std::optional<std::string> run_dialogue(locate::Search& search, const TypedReadings& how, std::istream& in,
                                        Environment& environment, const ValueSource& source = {},
                                        const std::string& said_before = {});

}  // namespace ohmwright::cli
