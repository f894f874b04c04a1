#pragma once

#include <cmath>
#include <optional>
#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "compare/difference.hpp"
#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

// One property a function. What is told as "percent" is without a sign, in percent of the original.

/// The temperature at which people check a sensor that they hold in their hand [°C].
inline constexpr double room_celsius = 25.0;

/// Where the two differ most over a span inside both domains: past the original's tolerance, or how near they are.
/// Looks at every half kelvin.
EquivalenceFinding compare_over(const Pair& pair, TemperatureSpan span);

/// What a reading at 25 °C would show, and whether it would show anything. Nothing where a curve does not reach there.
std::optional<EquivalenceFinding> compare_at_room(const Pair& pair, Outcome over_the_span);

/// How far a good one of each may be off. A candidate that may be off by more than a tenth beyond what the original may
/// is not excluded by that, but must be read before it is fitted (common practice, no source).
EquivalenceFinding compare_tolerances(const Pair& pair, TemperatureSpan span);

/// At which temperature the original's control would end a defrost with the candidate fitted, against the control's own
/// tolerance or, where none is stated, what a good original may be off by (common practice, no source).
EquivalenceFinding compare_end_of_defrost(const Pair& pair);

inline EquivalenceFinding finding_of(Outcome outcome, const TextEntry& text) { return {outcome, text, {}}; }

/// |ln| as a percentage of the original, to the hundredth that anybody reads.
inline double percent_off(double log) { return std::round(100.0 * std::abs(percent(log))) / 100.0; }

}  // namespace ohmwright::defrost_sensor
