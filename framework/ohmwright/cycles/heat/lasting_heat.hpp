#pragma once

#include <optional>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// The longest time in which a load stands above the compressor's, or coil or air is hotter than a good appliance
/// leaves it, for longer than any time limit; nothing where there is none. What heats for sure comes before what is
/// asked about (`LastingHeat::is_sure`), and the load before the coil before the air. Times are as rough as the columns
/// of the outline.
///
/// A load that keeps the coil cold cools, whatever its level. Where a load was logged and does not flow, nothing heats.
std::optional<LastingHeat> find_lasting_heat(const LogAnalysis& analysis, const LogRatings& ratings);

}  // namespace ohmwright::cycles
