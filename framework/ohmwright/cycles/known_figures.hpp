#pragma once

#include <ohmwright/cycles/frost.hpp>

/// Figures of the trade that several rules on logs rest on, each once: rules that hold one of them against a log must
/// not contradict each other. (Common practice, no source, where none is named.)
namespace ohmwright::cycles {

/// No good defrost leaves the coil warmer, and no room is so warm [K].
inline constexpr double hottest_good_end_kelvin = melting_point_kelvin + 45.0;
/// Air of a freezer that freezes, and a coil beside it, stay below it [K].
inline constexpr double freezing_air_kelvin = melting_point_kelvin - 10.0;
/// The rarest defrosts that are known by the clock [s].
inline constexpr double rarest_interval_second = 54.0 * 3600.0;
/// The shortest interval that controls are rated for [s].
inline constexpr double shortest_of_controls_second = 4.0 * 3600.0;
/// Clearly shorter than the six hours that are the shortest common interval [s].
inline constexpr double oftener_than_controls_second = 5.0 * 3600.0;
/// Defrosts are ended after 15 to 60 minutes: what lasts for longer is ended by no time limit [s].
inline constexpr double past_any_limit_second = 2.0 * 3600.0;
/// A heating shorter than most time limits [s].
inline constexpr double quick_heating_second = 780.0;
/// What the line may be, of its nominal voltage (EN 50160: +- 10 %).
inline constexpr double lowest_line_share = 0.9;
inline constexpr double highest_line_share = 1.1;
/// Power of one heater at the highest line over that at the lowest: P as V^2.
inline constexpr double widest_power_by_line =
    highest_line_share * highest_line_share / (lowest_line_share * lowest_line_share);
/// Lengths of one time limit differ by so many rows at most, each edge anywhere in its row, and by this share of them.
inline constexpr double rows_of_one_length = 1.2;
inline constexpr double share_of_one_length = 0.012;

}  // namespace ohmwright::cycles
