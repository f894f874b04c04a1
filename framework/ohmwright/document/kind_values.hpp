#pragma once

#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/quantity/observed.hpp>

// How what a kind declares governs the text of its readings, wherever they are written.

namespace ohmwright {

/// What a reading of the measurand may look like; nothing completes a bare number. `meter` says whether a lone 1 means
/// over-range; null when none is known.
ObservedOptions observed_options(const MeasurandDescriptor& measurand, const Meter* meter);

/// The unit that completes a bare number where one is taken, or nothing.
std::optional<Unit> default_unit_of(const MeasurandDescriptor& measurand);
std::optional<Unit> default_unit_of(const ConditionDescriptor& condition);

/// A condition of a reading. Without ± it takes the kind's half-width, marked as assumed.
Condition stated_condition(const ConditionDescriptor& condition, const StatedValue& value, std::string error_source);

}  // namespace ohmwright
