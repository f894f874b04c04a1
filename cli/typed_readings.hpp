#pragma once

#include <span>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "reading_words.hpp"

namespace ohmwright::cli {

/// Readings as they were typed, with the units that were typed noted in `units`, so that the answer speaks them.
/// `meter` says whether a lone 1 means over-range. Throws InputError naming the reading and what was expected.
std::vector<Reading> make_readings(std::span<const ReadingWords> words, const Descriptor& descriptor,
                                   const Meter& meter, UnitPreferences& units);

}  // namespace ohmwright::cli
