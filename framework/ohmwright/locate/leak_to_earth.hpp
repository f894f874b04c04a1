#pragma once

#include <string_view>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/appliance/joined_places.hpp>

namespace ohmwright::locate {

/// What a leak to earth makes people see, where volts drive it.
inline constexpr std::string_view trips_residual_current_device = "trips-residual-current-device";
inline constexpr std::string_view shock_from_cabinet = "shock-from-cabinet";

/// Of what a leak does with the line's volts behind it, the share that is left to one beside the neutral: nothing but
/// what the neutral drops, or a plug that is the other way round (assumed, no source).
inline constexpr double share_beside_neutral = 0.1;

/// `share_beside_neutral` for a fault that conducts to earth from a terminal at the neutral, else 1. By Ohm's law a
/// current needs volts. `places` are of the appliance.
double share_with_volts_behind(const Appliance& appliance, const JoinedPlaces& places, const PartFault& fault);

}  // namespace ohmwright::locate
