#pragma once

#include <span>

#include <ohmwright/locate/diagnosis.hpp>

namespace ohmwright::locate {

/// Whether a reading of ohms finds a way to the protective earth where insulation belongs: energised, it may make the
/// frame live. Below 1 megohm it does (common practice, no source); that it does not proves no insulation.
bool tells_of_leak(const Appliance& appliance, const TakenReading& reading, const Meter& meter);

bool any_tells_of_leak(const Appliance& appliance, std::span<const TakenReading> readings, const Meter& meter);

}  // namespace ohmwright::locate
