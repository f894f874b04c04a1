#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <system_error>

#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/letter_case.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::string_view minus_sign = "\xE2\x88\x92";
constexpr std::size_t longest_number = 40;

bool is_group_mark(char c, char decimal_sign) {
  return c == '\'' || c == ' ' || (c == ',' && decimal_sign == '.') || (c == '.' && decimal_sign == ',');
}

/// Three digits and then none: what follows the mark that parts thousands.
bool group_follows(std::string_view text) {
  return text.size() >= 3 && std::all_of(text.begin(), text.begin() + 3, detail::is_digit) &&
         (text.size() == 3 || !detail::is_digit(text[3]));
}

}  // namespace

std::optional<NumberAndRest> number_at_start(std::string_view cell, char decimal_sign) {
  std::string text;
  if (cell.starts_with(minus_sign)) {
    text = "-";
    cell.remove_prefix(minus_sign.size());
  } else if (cell.starts_with('-') || cell.starts_with('+')) {
    if (cell.front() == '-') text = "-";
    cell.remove_prefix(1);
  }
  bool point = false;
  std::size_t at = 0;
  for (; at < cell.size() && text.size() < longest_number; ++at) {
    const char c = cell[at];
    if (detail::is_digit(c)) {
      text += c;
    } else if (c == decimal_sign && !point) {
      point = true;
      text += '.';
    } else if (point || at == 0 || !is_group_mark(c, decimal_sign) || !group_follows(cell.substr(at + 1))) {
      break;
    }
  }
  if (at + 1 < cell.size() && (cell[at] == 'e' || cell[at] == 'E')) {
    const bool sign = cell[at + 1] == '-' || cell[at + 1] == '+';
    std::size_t end = at + 1 + (sign ? 1 : 0);
    const std::size_t digits = end;
    while (end < cell.size() && detail::is_digit(cell[end])) ++end;
    if (end > digits && end - digits <= 3) {
      text += 'e';
      if (cell[at + 1] == '-') text += '-';
      text += cell.substr(digits, end - digits);
      at = end;
    }
  }
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return NumberAndRest{value, without_blanks_around(cell.substr(at))};
}

std::optional<double> whole_number_text(std::string_view cell, char decimal_sign) {
  const std::optional<NumberAndRest> number = number_at_start(cell, decimal_sign);
  if (!number || !number->rest.empty()) return std::nullopt;
  return number->value;
}

bool says_no_value(std::string_view cell) {
  const std::string_view shown = without_blanks_around(cell);
  if (std::all_of(shown.begin(), shown.end(), [](char c) { return c == '-' || c == '.' || c == '*' || c == '?'; }))
    return true;
  constexpr std::array<std::string_view, 14> words{"nan",  "null", "n/a",   "#n/a", "na",      "none", "ol",
                                                   "open", "err",  "error", "fail", "missing", "\\n",  "-nan"};
  const std::string lower = lower_case(shown);
  return std::find(words.begin(), words.end(), lower) != words.end();
}

}  // namespace ohmwright::cycles
