#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/reading.hpp>

// What no verdict is made from, whatever the kind. `label` names the reading in the refusal.

namespace ohmwright {

/// The half-width of a value of that dimension, when a probability can be taken from it. Throws InputError else, naming
/// the reading and `whose` half-width it is.
double usable(double half_width, Dimension dimension, const std::string& label, std::string_view whose = {});

/// Throws InputError for milliohms where megohms are read: "mohm" is often meant as the latter, and a good insulation
/// must not be taken for a short.
void refuse_milliohms(const StatedValue& stated, const MeasurandDescriptor& measurand, const std::string& label);

/// Throws InputError for more volts than any part of an appliance is tested with: a slip, or a test that breaks down
/// what is good and is dangerous to touch.
void refuse_too_many_test_volts(const Condition& condition, const std::string& label);

/// Throws InputError for so many readings that their errors cannot be numbered.
[[noreturn]] void refuse_so_many(std::size_t readings);

}  // namespace ohmwright
