#pragma once

namespace ohmwright {

/// How far common faults reach, for the electrical models of kinds [ohm]; all assumed, no source. What a part alone
/// reads, from nothing to OL, must be good or one of its faults: of a reading that none of them explains another part
/// is suspected that adds up to the same.
namespace fault_extents {

// A joint or contact that still carries current, badly; and one burnt or corroded through, that carries next to none.
inline constexpr double bad_joint_to = 50.0;
inline constexpr double burnt_joint_from = bad_joint_to;
inline constexpr double burnt_joint_to = 100e3;  ///< past it the megohms of a damp break begin, which a meter calls OL

// A conductor that touches its frame or sheath, up to what moisture leaks: the least insulation of a part of class I.
// A kind that ended sooner would leave its own leak to a part that goes on.
inline constexpr double leak_from = 0.0;
inline constexpr double leak_to = 1e6;

/// How much less often a joint is found burnt through than bad: what goes on carrying current is found first.
inline constexpr double burnt_joint_weight = 0.1;

}  // namespace fault_extents

}  // namespace ohmwright
