#pragma once

#include <optional>
#include <string_view>

namespace ohmwright::cycles {

/// A time since some start that may pass a day: "26:05:30", "1.02:05:30", "1d 02:05:30", "1 day, 2:05:30" [s]. The
/// whole text, without blanks around it; nothing for anything else.
std::optional<double> elapsed_second(std::string_view text);

}  // namespace ohmwright::cycles
