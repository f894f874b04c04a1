#include <algorithm>
#include <cassert>
#include <cmath>

#include <ohmwright/quantity/decimal.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

// A double carries 15 decimal digits (IEEE 754 binary64); one is given up to the factors of rpm, degF and Wh.
constexpr int most_digits = 14;

std::string with_unit(const std::string& number, const std::string& symbol) {
  return symbol.empty() ? number : number + ' ' + symbol;
}

std::string exact_number(Dimension dimension, double value_in_si) {
  assert(std::isfinite(value_in_si));
  return with_unit(shortest_text(value_in_si), Unit::si(dimension).symbol());
}

/// `unit`, or the SI unit of its dimension where the number would be too large in it (above 1e306).
Unit holding(Unit unit, double value_in_si) {
  return std::isfinite(unit.shifted_from_si(value_in_si)) ? unit : Unit::si(unit.dimension());
}

Unit unit_for(AnyQuantity value, const DisplayOptions& options) {
  assert(!options.fixed_unit || options.fixed_unit->dimension() == value.dimension());
  if (options.fixed_unit) return holding(*options.fixed_unit, value.value_in_si());
  return options.units.unit_for(value, options.significant_digits);
}

/// Unit of an uncertainty beside a value in `unit`: degF beside degF, kelvin beside degC.
Unit uncertainty_unit_beside(Unit unit) {
  const Unit own = unit.of_differences();
  const bool celsius = unit.dimension() == Dimension::temperature && !unit.zero_is_absolute() && own.to_si(1.0) == 1.0;
  return celsius ? Unit::si(Dimension::temperature_difference) : own;
}

/// Rounding has made this number of `unit` a temperature below 0 K, which nobody could read back.
bool below_absolute_zero(Unit unit, const RoundedDecimal& rounded) {
  const int last_power = rounded.first_power - static_cast<int>(rounded.digits.size()) + 1;
  const double shifted = to_double({rounded.negative, rounded.digits, last_power}, 0).value;
  return unit.dimension() == Dimension::temperature && unit.si_from_shifted(shifted) < 0.0;
}

/// Rounds a number in `unit` to the place 10^`last_power`, but no finer than what survives the way to the SI unit.
RoundedDecimal round_to_place(Unit unit, double shifted, int last_power) {
  if (shifted == 0.0 && unit.zero_is_absolute()) return round_to_power(shifted, last_power);
  constexpr int first_power_of_a_temperature = 2;  // hundreds of kelvin are added to a temperature
  const int first_power = round_to_digits(shifted, most_digits).first_power;
  const int finest = unit.zero_is_absolute() ? first_power - most_digits + 1
                                             : std::max(first_power, first_power_of_a_temperature) - most_digits + 2;
  int place = std::max(last_power, finest);
  RoundedDecimal rounded = round_to_power(shifted, place);
  while (place > finest && below_absolute_zero(unit, rounded)) rounded = round_to_power(shifted, --place);
  return rounded;
}

std::string display_number(Unit unit, double value_in_si, int significant_digits, Spelling spelling) {
  const int digits = std::clamp(significant_digits, 1, most_digits);
  const double shifted = unit.shifted_from_si(value_in_si);
  RoundedDecimal rounded = round_to_digits(shifted, digits);
  if (shifted == 0.0 && unit.zero_is_absolute()) return with_unit("0", unit.symbol(spelling));
  if (!unit.zero_is_absolute()) {
    rounded = round_to_place(unit, shifted, std::max(rounded.first_power, 1) - digits + 1);
  }
  return with_unit(plain_text(rounded, unit.decimal_shift()), unit.symbol(spelling));
}

struct TextWithUncertainty {
  std::string value;
  std::string uncertainty;
};

/// Uncertainty to two digits, value to the same place.
TextWithUncertainty rounded_together(AnyQuantity value, double uncertainty, const DisplayOptions& options) {
  assert(uncertainty >= 0.0 && std::isfinite(uncertainty) && std::isfinite(value.value_in_si()));
  const bool about_zero = value.value_in_si() == 0.0 && value.dimension() != Dimension::temperature;
  const Unit unit = unit_for(about_zero ? AnyQuantity(value.dimension(), uncertainty) : value, options);
  const Unit beside = holding(uncertainty_unit_beside(unit), uncertainty);
  const std::string uncertainty_text = display_number(beside, uncertainty, 2, options.spelling);
  if (uncertainty == 0.0) {
    return {display_number(unit, value.value_in_si(), options.significant_digits, options.spelling), uncertainty_text};
  }
  const int last_power = round_to_digits(beside.shifted_from_si(uncertainty), 2).first_power - 1;
  const RoundedDecimal rounded = round_to_place(unit, unit.shifted_from_si(value.value_in_si()), last_power);
  return {with_unit(plain_text(rounded, unit.decimal_shift()), unit.symbol(options.spelling)), uncertainty_text};
}

}  // namespace

std::string exact_text(AnyQuantity value) { return exact_number(value.dimension(), value.value_in_si()); }

std::string exact_text(const StatedValue& stated) {
  if (!stated.half_width) return exact_text(stated.value);
  const Dimension difference = Unit::si(stated.value.dimension()).of_differences().dimension();
  return exact_text(stated.value) + " +- " + exact_number(difference, *stated.half_width);
}

std::string exact_text(const Observed& observed) {
  if (const auto* const stated = std::get_if<StatedValue>(&observed)) return exact_text(*stated);
  if (const auto* const over = std::get_if<OverRange>(&observed)) {
    if (over->more_than) return "> " + exact_text(*over->more_than);
    return over->unit ? with_unit("OL", over->unit->symbol()) : "OL";
  }
  return std::get<ContactState>(observed) == ContactState::open ? "open" : "closed";
}

std::string display_text(AnyQuantity value, const DisplayOptions& options) {
  assert(std::isfinite(value.value_in_si()));
  return display_number(unit_for(value, options), value.value_in_si(), options.significant_digits, options.spelling);
}

std::string display_text(const StatedValue& stated, const DisplayOptions& options) {
  if (!stated.half_width) return display_text(stated.value, options);
  const TextWithUncertainty text = rounded_together(stated.value, *stated.half_width, options);
  return text.value + (options.spelling == Spelling::ascii ? " +- " : " \u00B1 ") + text.uncertainty;
}

std::string display_with_standard_uncertainty(AnyQuantity value, double standard_uncertainty,
                                              const DisplayOptions& options) {
  const TextWithUncertainty text = rounded_together(value, standard_uncertainty, options);
  return text.value + " (u = " + text.uncertainty + ')';
}

}  // namespace ohmwright
