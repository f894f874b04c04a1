#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace ohmwright::cycles {

namespace detail {
inline constexpr std::array<double, 23> powers_of_ten{1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                      1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                      1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
inline bool is_digit(char c) { return static_cast<unsigned char>(c - '0') < 10; }
}  // namespace detail

/// Reads "-12.75" with the decimal sign given, from `text` on; there must be a byte that belongs to no number before
/// the memory ends. Gives the byte after it, or null where this simple form does not do: more than 15 digits, none,
/// others forms. The double is the nearest one: whole numbers below 2⁵³ and powers of ten up to 10²² are exact, and so
/// one division rounds once (W. D. Clinger, How to read floating point numbers accurately, 1990).
inline const char* plain_number(const char* text, char decimal_sign, double& value) {
  const bool negative = *text == '-';
  text += (negative || *text == '+') ? 1 : 0;
  std::uint64_t whole = 0;
  const char* const start = text;
  while (detail::is_digit(*text)) whole = whole * 10 + static_cast<std::uint64_t>(*text++ - '0');
  std::ptrdiff_t digits = text - start;
  std::ptrdiff_t behind_point = 0;
  if (*text == decimal_sign) {
    const char* const point = ++text;
    while (detail::is_digit(*text)) whole = whole * 10 + static_cast<std::uint64_t>(*text++ - '0');
    behind_point = text - point;
    digits += behind_point;
  }
  if (digits == 0 || digits > 15) return nullptr;
  // Signed without a branch: the signs of a temperature's values come in no order.
  const double sign = 1.0 - 2.0 * static_cast<double>(negative);
  value = sign * static_cast<double>(whole) / detail::powers_of_ten[static_cast<std::size_t>(behind_point)];
  return text;
}

/// A number at the start of a cell in any form people have, and what follows it ("-18.3 degC").
struct NumberAndRest {
  double value = 0.0;
  std::string_view rest;  ///< without blanks before it
};

/// With the decimal sign given; exponents, U+2212 and "1 234.5", "1.234,5", "1'234.5" are understood. Nothing when
/// there is none, or when it is not finite.
std::optional<NumberAndRest> number_at_start(std::string_view cell, char decimal_sign);

/// The number that is the whole cell.
std::optional<double> whole_number_text(std::string_view cell, char decimal_sign);

/// A cell by which loggers say "no value": empty, "-", "--", "nan", "null", "n/a", "#N/A", "none", "OL", "open".
bool says_no_value(std::string_view cell);

}  // namespace ohmwright::cycles
