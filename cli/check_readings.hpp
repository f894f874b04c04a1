#pragma once

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
std::vector<Reading> gather_readings(const Arguments& arguments, const Descriptor& descriptor, const MeterSet& meters,
                                     UnitPreferences& units);

/// Throws InputError for readings that are not safe to take, as above.
void refuse_unsafe_readings(std::span<const Reading> readings, const Descriptor& descriptor, bool agreed);

/// Of those, the one that no acknowledgement heals: ohms and farads on a live part.
void refuse_ohms_on_live_parts(std::span<const Reading> readings, const Descriptor& descriptor);

}  // namespace ohmwright::cli
