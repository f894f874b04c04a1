#pragma once

#include <algorithm>
#include <span>
#include <string_view>

namespace ohmwright {

/// What parts do in an appliance, by the names that the framework asks for; a kind may have others of its own, for
/// `FaultModeDescriptor::looks_upstream`.
namespace role {

inline constexpr std::string_view heats_coil = "heats-coil";
inline constexpr std::string_view senses_coil = "senses-coil";
inline constexpr std::string_view ends_defrost = "ends-defrost";
inline constexpr std::string_view times_defrost = "times-defrost";
inline constexpr std::string_view moves_air = "moves-air";
inline constexpr std::string_view limits_heat = "limits-heat";  ///< nothing is heated while it is not proved
inline constexpr std::string_view joins_parts = "joins-parts";  ///< what is read through it is of what lies behind
inline constexpr std::string_view warms_by_running = "warms-by-running";  ///< it alone, not its zone

/// What such a part heats may be hot where nobody measured it: all roles that begin so.
inline constexpr std::string_view heats = "heats-";
inline constexpr std::string_view heats_oven = "heats-oven";
inline constexpr std::string_view heats_itself = "heats-itself";

}  // namespace role

/// Whether a role is among those of a kind.
inline bool plays(std::span<const std::string_view> roles, std::string_view role) {
  return std::find(roles.begin(), roles.end(), role) != roles.end();
}

}  // namespace ohmwright
