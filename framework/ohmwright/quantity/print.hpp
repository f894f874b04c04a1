#pragma once

#include <optional>
#include <string>

#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright {

/// The value in its SI unit, such that reading it gives the same double bit for bit: "11000 ohm", "296.15 K".
/// The value must be finite. A ratio is a bare number: "0.05".
OHMWRIGHT_CORE_API std::string exact_text(AnyQuantity value);
/// The same with the half-width that ± stated: "11000 ohm +- 110 ohm".
OHMWRIGHT_CORE_API std::string exact_text(const StatedValue& stated);
/// The same for whatever a meter can show: "OL", "OL Mohm", "open", "closed", or the value.
OHMWRIGHT_CORE_API std::string exact_text(const Observed& observed);

/// How a value is shown to people.
struct DisplayOptions {
  int significant_digits = 4;  ///< 1...14. A temperature in degC or degF counts as two digits at least: 0.50 degC
  Spelling spelling = Spelling::ascii;
  UnitPreferences units;           ///< choose the unit and its prefix
  std::optional<Unit> fixed_unit;  ///< if given, exactly this unit is used
};

/// The value rounded for people: "10.95 kohm", "73.40 degF". Reading it back gives exactly the number it shows: the
/// double nearest to those decimal digits, and showing that again in the same unit gives the same text. Halves are
/// rounded away from zero. The value must be finite; the promise holds from 1e-290 to 1e290.
OHMWRIGHT_CORE_API std::string display_text(AnyQuantity value, const DisplayOptions& options = {});

/// What was stated, with its half-width to two digits and the value rounded to the same place (JCGM 100:2008, 7.2.6):
/// "11.00 kohm +- 0.11 kohm". Reads back as what it shows. Without a half-width as `display_text` of the value.
OHMWRIGHT_CORE_API std::string display_text(const StatedValue& stated, const DisplayOptions& options = {});

/// A value with its standard uncertainty, `standard_uncertainty` in the SI unit of the value (a difference for a
/// temperature) and not negative: "10.950 kohm (u = 0.062 kohm)". Form 1 of JCGM 100:2008, 7.2.2; ± is kept for
/// intervals (7.2.4), so that this text is never read back as one.
OHMWRIGHT_CORE_API std::string display_with_standard_uncertainty(AnyQuantity value, double standard_uncertainty,
                                                                 const DisplayOptions& options = {});

}  // namespace ohmwright
