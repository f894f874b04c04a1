#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace ohmwright {

/// A decimal number as text holds it: `digits` * 10^`exponent`. Shifting its point costs no rounding.
struct Decimal {
  bool negative = false;
  std::string digits;
  int exponent = 0;
};

/// A number found at the start of a text, and the bytes it takes.
struct ScannedDecimal {
  Decimal number;
  std::size_t bytes = 0;
  bool whole = false;  ///< digits alone: no point and no exponent, so that a letter code may follow
};

/// Why a decimal number has no double.
enum class DecimalTrouble { too_large, too_small };

/// The number at the start of `text`: sign (+, -, U+2212), digits with at most one point, exponent. Nothing if there is
/// none. Independent of the locale; "nan", "inf" and hexadecimal are no numbers here.
std::optional<ScannedDecimal> scan_decimal(std::string_view text);

/// A double, or why there is none.
struct DecimalValue {
  double value = 0.0;
  std::optional<DecimalTrouble> trouble;
};

/// The double nearest to `number` * 10^`shift`, rounded once. What would round to zero without being zero is too small.
DecimalValue to_double(const Decimal& number, int shift);

/// The shortest text that reads back to exactly this double: "11000", "1e+22".
std::string shortest_text(double value);

/// A double rounded to decimal digits: the first digit of `digits` stands at 10^`first_power`. Zero has the
/// one digit "0" at its last place.
struct RoundedDecimal {
  bool negative = false;
  std::string digits;
  int first_power = 0;
};

/// `value` rounded to `count` significant digits, 1...17. Throws std::domain_error for one that is not finite.
///
/// What is rounded is the shortest decimal text of the double, half away from zero: who typed 22.5 sees 23, never 22.
RoundedDecimal round_to_digits(double value, int count);

/// `value` rounded likewise (and refused likewise) so that the last digit stands at 10^`last_power`.
RoundedDecimal round_to_power(double value, int last_power);

/// The digits as text after moving the point `shift` places to the left; with an exponent only where very large or
/// small.
std::string plain_text(const RoundedDecimal& number, int shift);

}  // namespace ohmwright
