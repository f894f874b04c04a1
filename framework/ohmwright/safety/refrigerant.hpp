#pragma once

#include <optional>
#include <string_view>

namespace ohmwright {

/// Safety class of the refrigerant that a label names ("A1", "A2L", "A3"; the letter is how poisonous it is, the digit
/// how it burns), by its number ("R-600a", "r600a", "600a") or its name ("isobutane"). Nothing for one that the table
/// does not have. Source: ISO 817 (from memory).
std::optional<std::string_view> refrigerant_safety_class(std::string_view designation);

/// Whether to beware of fire: true for whatever the table does not know as one that does not burn. "non-flammable" and
/// "none" are what an appliance's file says, "other" what somebody said who read on the label that it does not burn.
bool refrigerant_may_burn(std::string_view designation);

}  // namespace ohmwright
