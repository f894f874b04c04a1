#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "formula/powers.hpp"

namespace ohmwright::kind_file {

/// One step of a formula: it takes values off a stack and leaves one there. No step jumps, so every formula ends.
struct FormulaStep {
  enum class Does : std::uint8_t {
    number,
    rating,
    condition,
    negate,
    add,
    subtract,
    multiply,
    divide,
    raise,
    square_root,
    exponential,
    logarithm,
    absolute,
    smaller,
    larger,
  };
  Does does = Does::number;
  std::int8_t exponent = 1;  ///< of `raise`
  std::uint16_t index = 0;   ///< of a rating or a condition
  double value = 0.0;        ///< of a number [SI]
};

/// Most values that a formula keeps at a time, and parentheses within each other.
inline constexpr std::size_t deepest_formula = 32;

/// A value with its derivative.
struct ValueAndSlope {
  double value = 0.0;
  double slope = 0.0;
};

/// A formula of ratings and conditions that was read and whose dimension was checked. Values are in SI units.
struct Formula {
  std::vector<FormulaStep> steps;
  Powers powers;                          ///< of what it gives
  std::vector<std::uint16_t> ratings;     ///< that it names, each once
  std::vector<std::uint16_t> conditions;  ///< that it names, each once, in the order of the text

  /// Its value [SI] and its derivative by the condition with index `along`; not a number where the arithmetic gives
  /// none (the root of less than nothing). Ratings and conditions that it names have to be there. Allocates nothing.
  ValueAndSlope at(std::span<const std::optional<double>> rating_values, std::span<const double> condition_values,
                   std::uint16_t along = std::numeric_limits<std::uint16_t>::max()) const;

  /// Whether all ratings that it names are stated.
  bool is_known(std::span<const std::optional<double>> rating_values) const;
};

}  // namespace ohmwright::kind_file
