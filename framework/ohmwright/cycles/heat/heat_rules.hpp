#pragma once

#include <optional>

#include <ohmwright/cycles/heat/heat_columns.hpp>

namespace ohmwright::cycles {

/// The longest time in which a load stands for longer than any defrost heats, where it heats for sure or may.
std::optional<LastingHeat> heat_by_load(const HeatColumns& log, const LogRatings& ratings);
/// The longest time in which the coil is hotter than any good defrost leaves it.
std::optional<LastingHeat> heat_by_coil(const HeatColumns& log);
/// The longest time in which the air of the cabinet is warmer than what is unplugged gets.
std::optional<LastingHeat> heat_by_air(const HeatColumns& log);

}  // namespace ohmwright::cycles
