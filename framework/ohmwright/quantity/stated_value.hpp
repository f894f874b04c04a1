#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright {

/// A value as a person stated it, perhaps with the doubt they put on it.
struct StatedValue {
  AnyQuantity value;
  /// Half the width of the rectangle that ± states, in the SI unit of `value` (of its difference for a temperature),
  /// zero or more. Without a ± there is none, which does not mean that there is no doubt.
  std::optional<double> half_width;
  /// The unit as typed, or the one that completed a bare number.
  Unit unit;
  /// True where a bare number was completed with `StatedValueOptions::default_unit`.
  bool unit_assumed = false;

  friend bool operator==(const StatedValue&, const StatedValue&) = default;
};

/// How a value may be written.
struct StatedValueOptions {
  /// Completes a bare number ("11.0"); without it a bare number is refused (except a ratio).
  std::optional<Unit> default_unit;
  /// Completes nothing: the unit that a message proposes for a bare number, megohms for insulation.
  std::optional<Unit> usual_unit = {};
  /// What else the caller takes, for its messages: `, or "OL"` makes `expected a resistance, such as "11.0 kohm", or
  /// "OL"`.
  std::string or_else;
};

/// Longest text that is read as a quantity [bytes].
inline constexpr std::size_t longest_quantity_text = 256;

/// Bytes of the "±", "+-" or "+/-" that the text begins with, which states an uncertainty; 0 when with none.
OHMWRIGHT_CORE_API std::size_t uncertainty_mark_in(std::string_view text);

/// Reads "11.0 kohm", "4k7", "23C", "12uF ± 5 %", "(11.0 ± 0.1) kohm" as a value of the dimension `expected`.
///
/// The uncertainty after "±", "+-" or "+/-" is in its own unit, in that of the value if it has none, or in percent of
/// the value (not of a temperature; percent after a ratio are percentage points). "11.0 ± 0.1 kohm" gives both the
/// unit. Letter codes are those of IEC 60062: R k M G for resistance, p n u m for capacitance. Independent of the
/// locale. Throws InputError for everything else: what was expected, what was found, and where it can be told, what was
/// meant.
OHMWRIGHT_CORE_API StatedValue parse_stated_value(std::string_view text, Dimension expected,
                                                  const StatedValueOptions& options = {});

}  // namespace ohmwright
