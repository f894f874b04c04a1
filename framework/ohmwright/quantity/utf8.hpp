#pragma once

#include <cstddef>
#include <string_view>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// One code point and the bytes it takes. Bytes that are no UTF-8 come one by one as `not_a_code_point`.
struct CodePoint {
  static constexpr char32_t not_a_code_point = 0xFFFFFFFF;

  char32_t value = not_a_code_point;
  std::size_t bytes = 1;
};

/// The code point at the start of `text`, which must not be empty (RFC 3629: no surrogates, no overlong forms).
OHMWRIGHT_CORE_API CodePoint first_code_point(std::string_view text);

/// Number of code points; every byte that is no UTF-8 counts as one.
std::size_t count_code_points(std::string_view text);

}  // namespace ohmwright
