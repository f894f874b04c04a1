#pragma once

#include <span>

#include <ohmwright/locate/diagnosis.hpp>

namespace ohmwright::locate {

/// Whether something is read between the protective earth and a conductor: insulation, or what is left of it.
bool is_to_earth(const Appliance& appliance, const Measurement& measurement);

/// Whether a reading of ohms finds a way to the protective earth where insulation belongs: energised, it may make the
/// frame live. Below 1 megohm it does (common practice, no source); that it does not proves no insulation.
bool tells_of_leak(const Appliance& appliance, const TakenReading& reading, const Meter& meter);

bool any_tells_of_leak(const Appliance& appliance, std::span<const TakenReading> readings, const Meter& meter);

/// Whether a reading of ohms between the two sides of the supply is so low that plugging it in blows the breaker.
bool tells_of_short(const Appliance& appliance, const TakenReading& reading, const Meter& meter);

/// Whether a sign that is there speaks of leakage, a short or burning: it is not energised before its insulation was
/// read.
bool speaks_of_leak_or_burning(const Signs& signs);
/// The same of those that burn or overheat alone.
bool speaks_of_burning(const Signs& signs);

/// Whether it may be plugged in by all that is known: no leak and no short was read, and where a sign speaks of either,
/// insulation to the protective earth was read and holds, or `insulation_is_good` by what was read elsewhere.
bool may_be_energised(const Appliance& appliance, std::span<const TakenReading> readings, const Signs& signs,
                      bool insulation_is_good, const Meter& meter);

}  // namespace ohmwright::locate
