#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright::cycles {

/// What a header's words tell of its column.
struct ColumnWords {
  enum class Meaning : std::uint8_t { unknown, time, date, clock, coil, cabinet, temperature, power, current, other };
  Meaning meaning = Meaning::unknown;
  std::string unit_text;           ///< "kW" of "Power (kW)" or "power_kw"; empty where there is none
  std::vector<std::string> parts;  ///< as they are written: "Temp", "°F", "SEN" of "Temp, °F (SEN)"
};

/// Reads a header cell: words in English and, for what loggers sold elsewhere write, German, French, Spanish, Italian,
/// Dutch and Portuguese. Common practice, no source.
ColumnWords words_of(std::string_view header);

/// The unit a header names, for a quantity: "kW", "C", "F", "mA" in brackets or at its end, and what can be nothing
/// else than a unit ("°F", "kW") wherever it stands, unless two contradict each other.
std::optional<Unit> unit_in_header(const ColumnWords& header, LogQuantity quantity);

}  // namespace ohmwright::cycles
