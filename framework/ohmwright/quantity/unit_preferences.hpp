#pragma once

#include <array>
#include <optional>

#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright {

/// The units an answer speaks: those the user typed, else the customary ones of the trade.
class OHMWRIGHT_CORE_API UnitPreferences {
 public:
  /// From now on values of this unit's dimension are shown in it. A temperature in degF brings its differences along,
  /// one in degC or K has them in K.
  void prefer(Unit unit);

  /// The unit to show `value` in. Of a preferred unit the prefix is kept while the number stays within 0.1...9999 and
  /// is adapted otherwise. Without a preference: degC, K, rpm, percent, Wh, and s, min or h by size, elsewhere the SI
  /// unit; with an engineering prefix where the number would leave 0.1...999. `significant_digits` is how the number
  /// will be rounded, since 999.96 ohm to four is 1.000 kohm.
  Unit unit_for(AnyQuantity value, int significant_digits = 4) const;

 private:
  std::array<std::optional<Unit>, dimension_count> preferred_{};
};

}  // namespace ohmwright
