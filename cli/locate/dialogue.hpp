#pragma once

#include <iosfwd>

#include <ohmwright/locate/search.hpp>

#include "environment.hpp"
#include "instrument_readings.hpp"
#include "locate/readings.hpp"

namespace ohmwright::cli {

/// Asks step by step until a part is named, no step is left, or the person stops: first what is seen, then one reading
/// after another. Every question is answered by a digit, but for a reading, which is typed, or read by `source` when an
/// empty line is typed for it. Ends where `in` ends.
void run_dialogue(locate::Search& search, const TypedReadings& how, std::istream& in, Environment& environment,
                  const ValueSource& source = {});

}  // namespace ohmwright::cli
