#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <string_view>

#include <ohmwright/quantity/dimension.hpp>
#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright::cycles {

/// What a log can hold beside time.
enum class LogQuantity : std::uint8_t { coil_temperature, cabinet_temperature, power, current };

inline constexpr std::size_t log_quantity_count = 4;
inline constexpr std::array<LogQuantity, log_quantity_count> log_quantities{
    LogQuantity::coil_temperature, LogQuantity::cabinet_temperature, LogQuantity::power, LogQuantity::current};

/// "coil_temperature", "cabinet_temperature", "power", "current": the words of options and files.
std::string_view name_of(LogQuantity quantity);
std::optional<LogQuantity> log_quantity_named(std::string_view name);
Dimension measured_dimension(LogQuantity quantity);

constexpr std::size_t index_of(LogQuantity quantity) { return static_cast<std::size_t>(quantity); }

/// One row of a log, for the numeric kernel: time [s] since the first row; temperatures [K], power [W], current [A], in
/// the order of `log_quantities`. Not-a-number is "no value in this row".
struct LogRow {
  static constexpr double none = std::numeric_limits<double>::quiet_NaN();

  double time_second = 0.0;
  std::array<double, log_quantity_count> value{none, none, none, none};
  std::uint64_t line = 0;  ///< of the log, from 1; 0: it was not read from a text
};

/// Melting point of ice [K], by the definition of the degree Celsius to well within what any log shows.
inline constexpr double melting_point_kelvin = Temperature::kelvin_at_zero_celsius;

}  // namespace ohmwright::cycles
