#pragma once

#include <optional>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// The longest time in which a load stands above the compressor's, or the coil is hotter than any defrost leaves it,
/// for longer than any time limit; nothing where there is none. Times are as rough as the columns of the outline.
///
/// A load that keeps the coil cold cools, whatever its level. What heats for sure is told by the coil, by the rated
/// heater, by the level of the defrosts seen before, or by a level that no compressor of this log comes near; what is
/// less than that is asked about (`LastingHeat::is_sure`).
std::optional<LastingHeat> find_lasting_heat(const LogAnalysis& analysis, const LogRatings& ratings);

}  // namespace ohmwright::cycles
