#pragma once

#include <optional>

#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// Largest resistance of the protective earth of an appliance, its cord included [ohm].
/// Source: EN 50106 (routine tests of new class I appliances): 0.1 ohm and the cord, 0.2 ohm with it.
inline constexpr double most_earth_bond_with_cord = 0.2;

/// Least current of a test that finds a strand that is nearly through [A]. Source: EN 50106, from 12 V at most.
inline constexpr double least_bond_test_current = 10.0;

/// What a reading of the earth bond says.
struct EarthBondVerdict {
  Outcome outcome = Outcome::undecided;
  double probability_within = 0.0;  ///< P(at most the limit) [dimensionless]
  bool lacks_current = false;       ///< nobody said that it was read with enough: it cannot pass
};

/// Judges the resistance from the pin of the plug to bare metal, `test_current` being what drove it. Without a ± the
/// tester's reading is taken as ±30 % (EN 61557-4, from memory). With less than `least_bond_test_current`, or a current
/// that nobody stated, it was an ordinary meter whose probes add up to half an ohm (common practice, no source): that
/// may condemn and never passes. 0.5 < confidence < 1. Throws InputError for a negative resistance or current.
EarthBondVerdict judge_earth_bond(const StatedValue& bond, const std::optional<StatedValue>& test_current,
                                  double confidence = 0.95);

}  // namespace ohmwright
