#pragma once

#include <optional>
#include <span>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// All readings of one call: those typed, then those of `--readings` and `--series`. The units that were written go to
/// `units`, so that the answer speaks them. Throws InputError or DocumentError for what cannot be read, when there is
/// no reading at all, and for readings that are not safe: ohms are never read live; volts and amperes must say whether
/// the supply was on, and live ones need the acknowledgement, which alone also says that they were taken live.
/// `from_instrument` is one more, which hears what was said for all.
std::vector<Reading> gather_readings(const Arguments& arguments, const Descriptor& descriptor, const MeterSet& meters,
                                     UnitPreferences& units, const std::optional<Reading>& from_instrument = {});

}  // namespace ohmwright::cli
