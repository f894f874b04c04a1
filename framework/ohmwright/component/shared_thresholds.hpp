#pragma once

namespace ohmwright {

// Figures that the rules of all kinds share; ours (docs/arithmetic.md).

/// Readings of one thing that lie farther apart than this many standard uncertainties disagree: one honest pair in 370
/// does.
inline constexpr double largest_disagreement = 3.0;

/// A way to a verdict is worth naming when it decides at least one such part in five.
inline constexpr double least_chance_worth_naming = 0.2;

}  // namespace ohmwright
