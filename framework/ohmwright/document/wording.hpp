#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>

namespace ohmwright {

/// Problems of one file that are told at once; who mends these meets the rest.
inline constexpr std::size_t most_problems = 100;

/// `; did you mean "value"?`, or, when no accepted word is near, `; expected "a", "b" or "c"`.
std::string suggestion(std::string_view typed, const std::vector<std::string>& accepted);

/// `2.0 MB`: a size of a file as people say it.
std::string size_in_words(unsigned long long bytes);

}  // namespace ohmwright
