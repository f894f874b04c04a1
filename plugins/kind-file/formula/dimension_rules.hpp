#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "formula/formula.hpp"
#include "formula/powers.hpp"

namespace ohmwright::kind_file {

// What a formula may do with values of which dimension. All of these throw FormulaRefusal where it may not.

/// Ends the reading of a formula; caught where that began.
struct FormulaRefusal {
  std::size_t at = 0;  ///< byte in the text
  std::string text;
};

/// A value within a formula: its powers, and where in the text it begins.
struct FormulaValue {
  Powers powers;
  std::size_t at = 0;
};

/// The powers of a + b and of a - b, the sign standing at `at`.
Powers powers_of_sum(const Powers& a, const Powers& b, std::size_t at);
Powers powers_of_difference(const Powers& a, const Powers& b, std::size_t at);

/// The powers of a product or, with `sign` -1, of a quotient.
Powers powers_of_product(const FormulaValue& a, const FormulaValue& b, int sign, std::size_t at);

/// The powers of a^exponent.
Powers powers_of_power(const FormulaValue& base, int exponent, std::size_t at);

/// Only differences of temperatures can be multiplied: twice 20 °C is no 40 °C.
void refuse_point(const FormulaValue& value);

/// A function that formulas know.
struct FormulaFunction {
  std::string_view name;
  std::optional<FormulaStep::Does> does;  ///< empty: no step, since the value has that unit already
  bool takes_several = false;
};
std::span<const FormulaFunction> formula_functions();

/// The powers of a function of that value.
Powers powers_of_call(const FormulaFunction& function, const FormulaValue& value);

}  // namespace ohmwright::kind_file
