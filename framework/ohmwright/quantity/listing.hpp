#pragma once

#include <span>
#include <string>
#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

// Lists as messages show them; each word is made fit for a terminal (see quoted.hpp).

/// `"a", "b" or "c"`: what is accepted, in the order given.
OHMWRIGHT_CORE_API std::string one_of(std::span<const std::string> words);
OHMWRIGHT_CORE_API std::string one_of(std::span<const std::string_view> words);

/// `a, b, c`: what there is.
OHMWRIGHT_CORE_API std::string listed(std::span<const std::string> words);
OHMWRIGHT_CORE_API std::string listed(std::span<const std::string_view> words);

}  // namespace ohmwright
