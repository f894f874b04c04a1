#pragma once

#include <string>
#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// The text with A...Z as a...z; every other byte stays, in any locale.
OHMWRIGHT_CORE_API std::string lower_case(std::string_view text);

/// A name as it is compared when somebody says it: letter case, and whether words are parted by "-", "_" or a blank,
/// do not count. "Coil Sensor", "coil_sensor" and "coil-sensor" are one name.
OHMWRIGHT_CORE_API std::string spoken_name(std::string_view name);

}  // namespace ohmwright
