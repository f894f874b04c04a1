#include <cassert>
#include <cmath>
#include <cstddef>
#include <string_view>

#include <ohmwright/quantity/decimal.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

namespace ohmwright {

namespace {

Unit unit_named(std::string_view symbol, Dimension dimension) {
  const std::optional<Unit> unit = Unit::named(symbol, dimension);
  assert(unit.has_value());
  return *unit;
}

std::string_view customary_duration(double seconds) {
  constexpr double two_minutes = 120.0;
  constexpr double two_hours = 7200.0;
  if (std::fabs(seconds) < two_minutes) return "s";
  return std::fabs(seconds) < two_hours ? "min" : "h";
}

/// The unit the trade uses, without prefix.
Unit customary_unit(AnyQuantity value) {
  switch (value.dimension()) {
    case Dimension::temperature:
      return unit_named("degC", value.dimension());
    case Dimension::rotational_speed:
      return unit_named("rpm", value.dimension());
    case Dimension::ratio:
      return unit_named("%", value.dimension());
    case Dimension::energy:
      return unit_named("Wh", value.dimension());
    case Dimension::duration:
      return unit_named(customary_duration(value.value_in_si()), value.dimension());
    case Dimension::mass:
      return unit_named("g", value.dimension());
    default:
      return Unit::si(value.dimension());
  }
}

/// Power of ten of the first digit of the rounded value in `unit`.
int first_power_in(Unit unit, AnyQuantity value, int significant_digits) {
  return round_to_digits(unit.shifted_from_si(value.value_in_si()), significant_digits).first_power -
         unit.decimal_shift();
}

}  // namespace

void UnitPreferences::prefer(Unit unit) {
  preferred_.at(static_cast<std::size_t>(unit.dimension())) = unit;
  if (unit.dimension() != Dimension::temperature) return;
  const Unit fahrenheit = unit_named("degF", Dimension::temperature);
  preferred_.at(static_cast<std::size_t>(Dimension::temperature_difference)) =
      unit == fahrenheit ? fahrenheit.of_differences() : Unit::si(Dimension::temperature_difference);
}

Unit UnitPreferences::unit_for(AnyQuantity value, int significant_digits) const {
  const std::optional<Unit>& preferred = preferred_.at(static_cast<std::size_t>(value.dimension()));
  Unit unit = preferred ? *preferred : customary_unit(value);
  if (!std::isfinite(unit.shifted_from_si(value.value_in_si()))) unit = Unit::si(value.dimension());
  if (value.value_in_si() == 0.0 || value.dimension() == Dimension::temperature) return unit;
  const int first_power = first_power_in(unit, value, significant_digits);
  const int largest_kept = preferred ? 3 : 2;
  if (first_power >= -1 && first_power <= largest_kept) return unit;
  return unit.with_prefix_for(first_power + unit.prefix_exponent());
}

}  // namespace ohmwright
