#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright {

/// How unit symbols are spelled.
enum class Spelling {
  ascii,   ///< "kohm", "degC", "uF", "+-": files and anything that another program reads
  screen,  ///< "kΩ", "°C", "µF", "±" in UTF-8: for people
};

/// A unit that people type or read, at run time: a handle into the unit table, with its prefix. Copying costs nothing.
///
/// What a unit means depends on what is expected: "F" is farad or degree Fahrenheit, "k" alone is a kilohm.
class OHMWRIGHT_CORE_API Unit {
 public:
  /// The SI unit of a dimension, as machine output uses it: ohm, kg, K.
  static Unit si(Dimension dimension);

  /// The unit that `text` names where a value of `dimension` is expected, or nothing. The case of a prefix and of a
  /// single letter counts (mohm is not Mohm), that of a word does not (degc, KOHM), nor do blanks (deg C, k ohm).
  static std::optional<Unit> named(std::string_view text, Dimension dimension);

  /// Every unit of a dimension with every prefix it is printed with, for tests, help and completion.
  static std::vector<Unit> all_of(Dimension dimension);

  /// What the unit measures.
  Dimension dimension() const;

  /// The symbol: "kohm" or "kΩ". Empty for a ratio's unit one.
  std::string symbol(Spelling spelling = Spelling::ascii) const;

  /// Power of ten of the prefix: 3 for kohm, 0 for ohm, 3 for kg.
  int prefix_exponent() const { return prefix_exponent_; }

  /// The same unit with the largest prefix (powers of a thousand, as far as the unit takes any) that does not exceed
  /// 10^`exponent`, counted from the unit without prefix; with the smallest one if all exceed it.
  Unit with_prefix_for(int exponent) const;

  /// Power of ten that a number in this unit is shifted by before `si_from_shifted`: 3 for kohm, -2 for percent.
  int decimal_shift() const;

  /// SI value of a number whose decimal point was already shifted by `decimal_shift()`. So a prefix costs no rounding.
  double si_from_shifted(double shifted) const;
  /// The inverse of `si_from_shifted`.
  double shifted_from_si(double value_in_si) const;

  /// SI value of a number in this unit: 23 degC is 296.15 K.
  double to_si(double number) const;
  /// Number in this unit of an SI value: 296.15 K is 23 degC.
  double from_si(double value_in_si) const;

  /// False where the unit's zero is not that of the SI unit: degC and degF as points on the scale.
  bool zero_is_absolute() const;

  /// For a unit of temperature the unit of its differences (1 degF is then 5/9 K); every other unit is its own.
  Unit of_differences() const;

  friend bool operator==(Unit, Unit) = default;

 private:
  Unit(std::uint8_t row, std::int8_t prefix_exponent) : row_(row), prefix_exponent_(prefix_exponent) {}

  std::uint8_t row_;
  std::int8_t prefix_exponent_;
};

}  // namespace ohmwright
