#include <array>
#include <cstddef>
#include <cstdint>

#include <ohmwright/batch/quick_quantity.hpp>

namespace ohmwright::batch {

namespace {

// A whole number below 2^53 and a power of ten up to 22 are doubles exactly, so that one multiplication or division
// rounds once, as a correct reader does (Clinger, How to read floating point numbers accurately, 1990, from memory).
constexpr std::size_t most_digits = 15;
constexpr std::array<double, 23> powers_of_ten{1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                               1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
constexpr std::size_t most_units = 64;

struct PlainNumber {
  bool negative = false;
  std::uint64_t digits = 0;
  int behind_point = 0;
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Takes the digits that `text` begins with; how many. Of more than `most_digits` the number is wrong, and refused.
std::size_t take_digits(std::string_view& text, PlainNumber& number) {
  std::size_t count = 0;
  for (; count < text.size() && is_digit(text[count]); ++count)
    number.digits = number.digits * 10 + static_cast<std::uint64_t>(text[count] - '0');
  text.remove_prefix(count);
  return count;
}

/// "-12", "11.45": digits on both sides of a point, if there is one; takes them from `text`.
std::optional<PlainNumber> take_number(std::string_view& text) {
  PlainNumber number;
  if (!text.empty() && text[0] == '-') {
    number.negative = true;
    text.remove_prefix(1);
  }
  std::size_t count = take_digits(text, number);
  if (count == 0 || count > most_digits) return std::nullopt;
  if (!text.empty() && text[0] == '.') {
    text.remove_prefix(1);
    const std::size_t behind_point = take_digits(text, number);
    count += behind_point;
    if (behind_point == 0 || count > most_digits) return std::nullopt;
    number.behind_point = static_cast<int>(behind_point);
  }
  return number;
}

/// The number times 10^`shift`, rounded once; nothing where that takes more than one operation.
std::optional<double> shifted(const PlainNumber& number, int shift) {
  const int power = shift - number.behind_point;
  const auto magnitude = static_cast<double>(static_cast<std::int64_t>(number.digits));  // a signed one is quicker
  const auto places = static_cast<std::size_t>(power < 0 ? -power : power);
  if (places >= powers_of_ten.size()) return std::nullopt;
  const double value = power < 0 ? magnitude / powers_of_ten.at(places) : magnitude * powers_of_ten.at(places);
  return number.negative ? -value : value;
}

void skip_blank(std::string_view& text) {
  if (!text.empty() && text[0] == ' ') text.remove_prefix(1);
}

/// The unit's text: letters, and what is no ASCII ("°C"), up to a blank; taken from `text`.
std::string_view take_unit_text(std::string_view& text) {
  std::size_t end = 0;
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };  // of no mark
  while (end < text.size() && (is_letter(text[end]) || (text[end] != ' ' && text[end] != '+' && !is_digit(text[end]) &&
                                                        uncertainty_mark_in(text.substr(end)) == 0)))
    ++end;
  const std::string_view unit = text.substr(0, end);
  text.remove_prefix(end);
  return unit;
}

}  // namespace

const QuickQuantities::KnownUnit* QuickQuantities::unit_named(std::string_view text, Dimension dimension) {
  for (const KnownUnit& known : units_)
    if (known.dimension == dimension && known.text == text) return &known;
  if (text.empty() || text == "%" || units_.size() == most_units) return nullptr;
  for (const char c : text)
    if (c == '(' || c == ')' || c == '.' || c == ',' || c == '\'' || c == '_' || c == '-' || c == '/') return nullptr;
  const std::optional<Unit> unit = Unit::named(text, dimension);
  if (!unit) return nullptr;
  return &units_.emplace_back(
      KnownUnit{std::string(text), dimension, *unit, unit->of_differences(), unit->decimal_shift()});
}

std::optional<StatedValue> QuickQuantities::read(std::string_view text, Dimension dimension) {
  const std::optional<PlainNumber> number = take_number(text);
  if (!number) return std::nullopt;
  skip_blank(text);
  const KnownUnit* known = unit_named(take_unit_text(text), dimension);
  if (known == nullptr) return std::nullopt;
  const Unit unit = known->unit;
  const Unit of_differences = known->of_differences;
  const std::optional<double> moved = shifted(*number, known->shift);
  if (!moved) return std::nullopt;
  StatedValue stated{AnyQuantity(dimension, unit.si_from_shifted(*moved)), std::nullopt, unit};
  if (stated.value.value_in_si() < 0.0 && !may_be_negative(dimension)) return std::nullopt;
  skip_blank(text);
  if (text.empty()) return stated;

  const std::size_t mark = uncertainty_mark_in(text);
  if (mark == 0) return std::nullopt;
  text.remove_prefix(mark);
  skip_blank(text);
  const std::optional<PlainNumber> half_width = take_number(text);
  if (!half_width || half_width->negative) return std::nullopt;
  skip_blank(text);
  const std::string_view own_text = take_unit_text(text);
  if (!text.empty()) return std::nullopt;
  const KnownUnit* own = own_text.empty() ? nullptr : unit_named(own_text, of_differences.dimension());
  if (!own_text.empty() && own == nullptr) return std::nullopt;
  const Unit half_unit = own == nullptr ? of_differences : own->unit;
  const std::optional<double> half = shifted(*half_width, own == nullptr ? half_unit.decimal_shift() : own->shift);
  if (!half) return std::nullopt;
  stated.half_width = half_unit.si_from_shifted(*half);
  return stated;
}

}  // namespace ohmwright::batch
