#include <algorithm>
#include <array>
#include <cassert>
#include <charconv>
#include <cmath>
#include <iterator>
#include <stdexcept>
#include <system_error>

#include <ohmwright/quantity/decimal.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view minus_sign = "\u2212";
constexpr int exponent_bound = 100'000;  // far beyond any double, far below an overflow of int

bool is_digit(char letter) { return letter >= '0' && letter <= '9'; }

/// Bytes of a sign at the start, and whether it is a minus.
std::size_t scan_sign(std::string_view text, bool& negative) {
  negative = text.starts_with('-') || text.starts_with(minus_sign);
  if (text.starts_with(minus_sign)) return minus_sign.size();
  return text.starts_with('-') || text.starts_with('+') ? 1 : 0;
}

/// Bytes of an exponent ("e3", "E-6") at the start; none where no digit follows, so that "5 eV" stays a unit.
std::size_t scan_exponent(std::string_view text, int& exponent) {
  if (!text.starts_with('e') && !text.starts_with('E')) return 0;
  bool negative = false;
  std::size_t place = 1 + scan_sign(text.substr(1), negative);
  const std::size_t first = place;
  int size = 0;
  for (; place < text.size() && is_digit(text[place]); ++place) {
    size = std::min(size * 10 + (text[place] - '0'), exponent_bound);
  }
  if (place == first) return 0;
  exponent = negative ? -size : size;
  return place;
}

std::string zeros(int count) {
  std::string text;
  text.resize(static_cast<std::size_t>(count), '0');
  return text;
}

/// The shortest decimal that reads back as `value`. Throws std::domain_error for what is not finite: it has no digits.
RoundedDecimal shortest(double value) {
  if (!std::isfinite(value)) throw std::domain_error("a value that is not finite has no decimal digits");
  std::array<char, 48> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::fabs(value), std::chars_format::scientific);
  assert(error == std::errc{});
  const std::string_view text(buffer.data(), static_cast<std::size_t>(end - buffer.data()));
  RoundedDecimal decimal;
  decimal.negative = std::signbit(value);
  const std::size_t mark = text.find('e');
  std::copy_if(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(mark), std::back_inserter(decimal.digits),
               is_digit);
  const std::size_t power = text[mark + 1] == '+' ? mark + 2 : mark + 1;
  std::from_chars(text.data() + power, text.data() + text.size(), decimal.first_power);
  return decimal;
}

/// Keeps the digits down to 10^`last_power`, half away from zero.
RoundedDecimal rounded_at(RoundedDecimal decimal, int last_power) {
  const int count = decimal.first_power - last_power + 1;
  if (count < 0) return {false, "0", last_power};
  const auto kept = static_cast<std::size_t>(count);
  if (kept >= decimal.digits.size()) {
    decimal.digits.append(kept - decimal.digits.size(), '0');
    return decimal;
  }
  const bool up = decimal.digits[kept] >= '5';
  decimal.digits.resize(kept);
  std::size_t place = kept;
  while (up && place > 0 && decimal.digits[place - 1] == '9') decimal.digits[--place] = '0';
  if (up && place > 0) ++decimal.digits[place - 1];
  if (up && place == 0) {
    // The carry went through: 9.96 to tenths is 10.0, one digit longer.
    decimal.digits.insert(decimal.digits.begin(), '1');
    ++decimal.first_power;
  }
  if (decimal.digits.empty()) return {false, "0", last_power};
  return decimal;
}

}  // namespace

std::optional<ScannedDecimal> scan_decimal(std::string_view text) {
  ScannedDecimal scanned;
  std::size_t place = scan_sign(text, scanned.number.negative);
  bool point = false;
  for (; place < text.size(); ++place) {
    if (text[place] == '.' && !point) {
      point = true;
    } else if (is_digit(text[place])) {
      scanned.number.digits += text[place];
      if (point) --scanned.number.exponent;
    } else {
      break;
    }
  }
  if (scanned.number.digits.empty()) return std::nullopt;
  int exponent = 0;
  const std::size_t exponent_bytes = scan_exponent(text.substr(place), exponent);
  scanned.number.exponent += exponent;
  scanned.bytes = place + exponent_bytes;
  scanned.whole = !point && exponent_bytes == 0;
  return scanned;
}

DecimalValue to_double(const Decimal& number, int shift) {
  DecimalValue result;
  const std::size_t first = number.digits.find_first_not_of('0');
  if (first == std::string::npos) {
    result.value = number.negative ? -0.0 : 0.0;
    return result;
  }
  const int exponent = number.exponent + shift;
  const std::string text = (number.negative ? "-" : "") + number.digits.substr(first) + 'e' + std::to_string(exponent);
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), result.value);
  if (error != std::errc{} || result.value == 0.0 || std::isinf(result.value)) {
    const bool large = static_cast<int>(number.digits.size() - first) + exponent > 0;
    result.trouble = large ? DecimalTrouble::too_large : DecimalTrouble::too_small;
  }
  return result;
}

std::string shortest_text(double value) {
  std::array<char, 32> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  assert(error == std::errc{});
  return {buffer.data(), end};
}

RoundedDecimal round_to_digits(double value, int count) {
  if (value == 0.0) return {false, "0", 0};
  const int digits = std::clamp(count, 1, 17);
  const RoundedDecimal decimal = shortest(value);
  RoundedDecimal rounded = rounded_at(decimal, decimal.first_power - digits + 1);
  rounded.digits.resize(static_cast<std::size_t>(digits));  // a carry adds a zero that is not asked for
  return rounded;
}

RoundedDecimal round_to_power(double value, int last_power) {
  if (value == 0.0) return {false, "0", last_power};
  return rounded_at(shortest(value), last_power);
}

std::string plain_text(const RoundedDecimal& number, int shift) {
  constexpr int largest_plain = 15;
  constexpr int smallest_plain = -6;
  const int first = number.first_power - shift;
  if (number.digits == "0") {
    const bool tenths = first < 0 && first >= -largest_plain;
    return tenths ? "0." + zeros(-first) : "0";
  }
  std::string text = number.negative ? "-" : "";
  const int length = static_cast<int>(number.digits.size());
  if (first > largest_plain || first < smallest_plain) {
    text += number.digits.substr(0, 1);
    if (length > 1) text += '.' + number.digits.substr(1);
    return text + 'e' + std::to_string(first);
  }
  if (first < 0) return text + "0." + zeros(-first - 1) + number.digits;
  const int whole = first + 1;
  if (length <= whole) return text + number.digits + zeros(whole - length);
  const std::string_view digits = number.digits;
  text += digits.substr(0, static_cast<std::size_t>(whole));
  text += '.';
  text += digits.substr(static_cast<std::size_t>(whole));
  return text;
}

}  // namespace ohmwright
