#pragma once

#include <optional>
#include <string_view>
#include <variant>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/dimension.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright {

/// The meter showed that the value lies above its range: "OL".
struct OverRange {
  /// The unit beside it on the display, where one was stated ("OL Mohm"): it tells the range.
  std::optional<Unit> unit = {};
  /// What the display named as its end: "> 200 Mohm" of an insulation tester.
  std::optional<AnyQuantity> more_than = {};

  friend bool operator==(const OverRange&, const OverRange&) = default;
};

/// What a contact was found to be.
enum class ContactState { open, closed };

/// What a person can read off a meter.
using Observed = std::variant<StatedValue, OverRange, ContactState>;

/// Which of the things that a meter can show are taken, and how numbers may be written.
struct ObservedOptions {
  bool values = true;                ///< numbers with a unit
  bool over_range = true;            ///< see `is_over_range_word`
  bool names_range_end = false;      ///< "> 200 Mohm": over-range past what the display names
  bool lone_one_is_over = false;     ///< "1" alone (or "1."), on meters that show over-range so
  bool contact_words = false;        ///< "open", "closed"
  bool continuity_sound = false;     ///< "beep" is closed, "no beep" open: a buzzer names no range that was passed
  std::optional<Unit> default_unit;  ///< completes a bare number
  std::optional<Unit> usual_unit;    ///< see StatedValueOptions
};

/// Whether a meter says "above my range" so: "OL", "O.L", "0.L", "0L", ".OL", "OVLD", "OVER", "overload".
OHMWRIGHT_CORE_API bool is_over_range_word(std::string_view text);

/// Reads what a meter showed. Letter case of the words does not count. "> 200 Mohm" is over-range past what it names.
///
/// Throws InputError as `parse_stated_value` does; its message names every form that is taken here.
OHMWRIGHT_CORE_API Observed parse_observed(std::string_view text, Dimension expected,
                                           const ObservedOptions& options = {});

}  // namespace ohmwright
