#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// The name that somebody who typed `typed` most likely meant, for "did you mean ...?"; nothing if none is close.
///
/// Letter case counts least; then insertions, deletions, changes and swaps of neighbours are counted (optimal string
/// alignment), of which a third of the typed length is allowed, so that a single letter is never guessed at.
OHMWRIGHT_CORE_API std::optional<std::string> near_miss(std::string_view typed, std::span<const std::string> names);

/// `; did you mean "--format"?`, or nothing when no name is near: the tail of a refusal.
OHMWRIGHT_CORE_API std::string did_you_mean(std::string_view typed, std::span<const std::string> names);

}  // namespace ohmwright
