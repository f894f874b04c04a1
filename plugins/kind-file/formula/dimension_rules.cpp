#include "formula/dimension_rules.hpp"

#include <array>
#include <utility>

namespace ohmwright::kind_file {

namespace {

using Does = FormulaStep::Does;

constexpr std::array<FormulaFunction, 7> known_functions{{{"sqrt", Does::square_root},
                                                          {"exp", Does::exponential},
                                                          {"ln", Does::logarithm},
                                                          {"abs", Does::absolute},
                                                          {"min", Does::smaller, true},
                                                          {"max", Does::larger, true},
                                                          {"kelvin", std::nullopt}}};

[[noreturn]] void refuse(std::size_t at, std::string text) { throw FormulaRefusal{at, std::move(text)}; }

Powers of_use(const std::optional<Powers>& powers, std::size_t at) {
  if (!powers) refuse(at, "the powers of its units grow beyond all use");
  return *powers;
}

}  // namespace

Powers powers_of_sum(const Powers& a, const Powers& b, std::size_t at) {
  const Powers difference = powers_of(Dimension::temperature_difference);
  if (a.is_point && b.is_point)
    refuse(at, "two temperatures cannot be added; a temperature difference such as 5 K can");
  if ((a.is_point && b == difference) || (b.is_point && a == difference)) return powers_of(Dimension::temperature);
  if (a != b) refuse(at, in_words(a) + " and " + in_words(b) + " cannot be added");
  return a;
}

Powers powers_of_difference(const Powers& a, const Powers& b, std::size_t at) {
  const Powers difference = powers_of(Dimension::temperature_difference);
  if (a.is_point && b.is_point) return difference;
  if (a.is_point && b == difference) return a;
  if (a != b) refuse(at, in_words(b) + " cannot be taken from " + in_words(a));
  return a;
}

void refuse_point(const FormulaValue& value) {
  if (value.powers.is_point)
    refuse(value.at,
           "a temperature cannot be multiplied; write kelvin(…) for its kelvins above absolute zero, or a difference "
           "of two");
}

Powers powers_of_product(const FormulaValue& a, const FormulaValue& b, int sign, std::size_t at) {
  refuse_point(a);
  refuse_point(b);
  return of_use(product(a.powers, b.powers, sign), at);
}

Powers powers_of_power(const FormulaValue& base, int exponent, std::size_t at) {
  refuse_point(base);
  return of_use(raised(base.powers, exponent), at);
}

std::span<const FormulaFunction> formula_functions() { return known_functions; }

Powers powers_of_call(const FormulaFunction& function, const FormulaValue& value) {
  if (function.takes_several) return value.powers;
  if (!function.does) {
    if (value.powers.is_point) return powers_of(Dimension::temperature_difference);
    refuse(value.at, std::string(function.name) + " takes a temperature, not " + in_words(value.powers));
  }
  refuse_point(value);
  if (*function.does == Does::absolute) return value.powers;
  if (*function.does == Does::square_root) {
    if (const std::optional<Powers> half = root(value.powers)) return *half;
    refuse(value.at, in_words(value.powers) + " has no square root");
  }
  if (value.powers != Powers{})
    refuse(value.at, std::string(function.name) + " takes a ratio, not " + in_words(value.powers));
  return value.powers;
}

}  // namespace ohmwright::kind_file
