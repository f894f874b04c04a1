#pragma once

namespace ohmwright::cycles {

/// The least that a defrost heater draws, where none is rated, at the lowest line [W, A]: 90 % of the weakest class
/// that is shipped (180 W at 230 V), at 90 % of its voltage (EN 50160, from memory). A test holds them against the
/// classes.
inline constexpr double weakest_heater_watt = 180.0 * 0.9 * 0.9 * 0.9;
inline constexpr double weakest_heater_ampere = 180.0 / 230.0 * 0.9 * 0.9;

}  // namespace ohmwright::cycles
