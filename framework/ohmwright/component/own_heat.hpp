#pragma once

namespace ohmwright {

/// How much warmer the winding of a motor that ran may be than what lies around it, up to what its insulation stands
/// [K]; half an hour without supply takes most of it (common practice, no source).
inline constexpr double most_own_heat_kelvin = 60.0;

}  // namespace ohmwright
