#pragma once

#include <cstdint>
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/locate/search.hpp>

#include "environment.hpp"
#include "instrument_readings.hpp"
#include "locate/readings.hpp"

namespace ohmwright::cli {

/// An answer that can be taken back.
struct GivenAnswer {
  enum class Form : std::uint8_t { signs, reading, out_of_reach, look, replacement, temperature };

  Form form = Form::reading;
  std::string said = {};      ///< of a temperature: "coil=-18C"
  locate::Signs before = {};  ///< of signs: what was known before they were asked for
};

/// Asks step by step until a part is named, no step is left, or the person stops: first what is seen, then one reading
/// after another. Every question is answered by a digit, but for a reading, which is typed, or read by `source` when an
/// empty line is typed for it, and for a temperature. Ends where `in` ends.
///
/// Gives what was said of a zone, "coil=-18C", or "coil=unknown" where that is taken back: the search then has to go on
/// at that site. Nothing where it has ended. `given` are the answers so far, the last behind; without any it begins
/// with the first question.
std::optional<std::string> run_dialogue(locate::Search& search, const TypedReadings& how, std::istream& in,
                                        Environment& environment, const ValueSource& source,
                                        std::vector<GivenAnswer>& given);

}  // namespace ohmwright::cli
