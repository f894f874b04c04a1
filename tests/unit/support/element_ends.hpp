#pragma once

#include <ohmwright/component/electrical.hpp>

namespace ohmwright::testing_support {

/// The ends of an element's tolerance [SI].
inline double lowest_of(const Element& element) { return element.value_in_si * (1.0 - element.relative_half_width); }
inline double highest_of(const Element& element) { return element.value_in_si * (1.0 + element.relative_half_width); }

}  // namespace ohmwright::testing_support
