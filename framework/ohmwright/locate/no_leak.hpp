#pragma once

#include <ohmwright/locate/diagnosis.hpp>

namespace ohmwright::locate {

/// Whether a reading of ohms at a test point where a way to the protective earth would be a leak (`tells_of_leak`)
/// shows that there is none: a value above the limit, or OL on a range that is known to end above it. It proves no
/// insulation.
bool shows_no_leak(const Appliance& appliance, const TakenReading& reading, const Meter& meter);

}  // namespace ohmwright::locate
