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

/// Whether the condition is one of what was read: the volts of an insulation tester are none of ohms beside it.
bool says_something_of(const ConditionDescriptor& condition, std::string_view measurand);

/// What is most likely a slip in a condition: 23 K for 23 °C. Empty for none.
std::string slip_in(const StatedValue& condition);

/// What is most likely a slip in the resistance of test leads. Empty for none.
std::string slip_in_leads(const StatedValue& leads);

/// A condition of a reading. Without ± it takes the kind's half-width, marked as assumed.
Condition stated_condition(const ConditionDescriptor& condition, const StatedValue& value, std::string error_source);

}  // namespace ohmwright
