#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/quantity/decimal.hpp>
#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright {

/// A number and the unit text beside it, as they stand in a stated value; nothing is looked up yet.
struct TypedNumber {
  Decimal number;
  std::string unit_text;                    ///< empty for a bare number
  std::optional<int> letter_code_exponent;  ///< 3 for 4k7, whose number is then 4.7
};

/// The parts of a stated value: number, unit, and what follows a ±.
struct TypedValue {
  TypedNumber value;
  std::optional<TypedNumber> uncertainty;
};

/// Splits a stated value into its parts. Throws InputError with what was wrong about the writing of it; `expectation`
/// ends up in the message: `a resistance, such as "11.0 kohm"`.
TypedValue read_typed_value(std::string_view text, Dimension expected, std::string_view expectation);

}  // namespace ohmwright
