#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/temperature.hpp>
#include <ohmwright/quantity/units.hpp>

namespace ohmwright {

/// What a value measures, for values whose kind is known only at run time (files, the command line, JSON).
enum class Dimension : std::uint8_t {
  resistance,
  voltage,
  current,
  power,
  energy,
  frequency,
  capacitance,
  inductance,
  duration,
  temperature,
  temperature_difference,
  rotational_speed,
  mass,
  length,
  ratio,
};

inline constexpr std::size_t dimension_count = 15;

/// Name of a dimension as it stands in files and messages: "resistance", "rotational_speed".
OHMWRIGHT_CORE_API std::string_view name_of(Dimension dimension);

/// The dimension with that name, or nothing.
OHMWRIGHT_CORE_API std::optional<Dimension> dimension_named(std::string_view name);

/// Symbol of the SI unit in machine output: "ohm", "K", "rad/s"; "1" for a ratio.
OHMWRIGHT_CORE_API std::string_view si_unit_of(Dimension dimension);

/// The dimension in a sentence, with its article: "a resistance", "an energy", "a temperature difference".
OHMWRIGHT_CORE_API std::string_view phrase_of(Dimension dimension);

/// A text that reads as this dimension, for messages and help: "11.0 kohm", "23 degC".
OHMWRIGHT_CORE_API std::string_view example_of(Dimension dimension);

/// What a message says is wanted: `a resistance, such as "11.0 kohm"`.
OHMWRIGHT_CORE_API std::string expectation_of(Dimension dimension);

/// False where a value below zero (for a temperature: below 0 K) has no physical meaning, as for a resistance.
OHMWRIGHT_CORE_API bool may_be_negative(Dimension dimension);

namespace detail {

/// The static types in the order of `Dimension`: the one list that ties the two together.
template <class... Known>
struct QuantityTypes {
  static constexpr std::size_t count = sizeof...(Known);

  template <class Asked>
  static constexpr std::size_t place() {
    constexpr std::array<bool, count> same{std::is_same_v<Asked, Known>...};
    std::size_t place = 0;
    while (place < count && !same[place]) ++place;
    return place;
  }
};

using StaticQuantities =
    QuantityTypes<Resistance, Voltage, Current, Power, Energy, Frequency, Capacitance, Inductance, Duration,
                  Temperature, TemperatureDifference, RotationalSpeed, Mass, Length, Ratio>;
static_assert(StaticQuantities::count == dimension_count);

template <class Quantity>
consteval Dimension dimension_of_static_type() {
  constexpr std::size_t place = StaticQuantities::place<Quantity>();
  constexpr bool is_a_quantity_of_ohmwright = place < dimension_count;
  static_assert(is_a_quantity_of_ohmwright,
                "this type is no quantity of ohmwright: use Resistance, Voltage, Temperature, ... or Ratio");
  return static_cast<Dimension>(place);
}

}  // namespace detail

/// One of the static quantity types of units.hpp and temperature.hpp.
template <class Type>
concept StaticQuantity = detail::StaticQuantities::place<Type>()
< dimension_count;

/// Dimension of a static type: `dimension_of<Resistance> == Dimension::resistance`.
template <class Quantity>
inline constexpr Dimension dimension_of = detail::dimension_of_static_type<Quantity>();

}  // namespace ohmwright
