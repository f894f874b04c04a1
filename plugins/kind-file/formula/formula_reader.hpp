#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include <ohmwright/quantity/dimension.hpp>

#include "formula/formula.hpp"

namespace ohmwright::kind_file {

/// A name that a formula may use.
struct FormulaName {
  std::string_view id;
  Dimension dimension = Dimension::ratio;
  bool is_condition = false;  ///< else a figure of the ratings
  std::uint16_t index = 0;    ///< among the kind's conditions or ratings
};

/// What became of the text of a formula.
struct ReadFormula {
  std::optional<Formula> formula;
  std::string refusal;  ///< where in the text, and what is wrong; empty where there is a formula
};

/// Reads a formula and checks its dimensions:
///
///     sum     = product {("+" | "-") product}
///     product = sign {("*" | "/") sign}
///     sign    = ["-"] power
///     power   = value ["^" ["-"] digit]
///     value   = NUMBER [UNIT] | NAME | "'" NAME "'" | FUNCTION "(" sum {"," sum} ")" | "(" sum ")"
///
/// Functions are sqrt, exp, ln, abs, min, max and kelvin (of a temperature: its kelvins above absolute zero). A name
/// with "-" in it stands between single quotes. Values of two dimensions are never added or compared, a power is a
/// digit, exp and ln take ratios, and of temperatures only differences and kelvin() can be multiplied.
ReadFormula read_formula(std::string_view text, std::span<const FormulaName> names);

/// The place in the text for a message, with what stands there: `character 7 ("+ 3 K")`.
std::string place_in_formula(std::string_view text, std::size_t at);

}  // namespace ohmwright::kind_file
