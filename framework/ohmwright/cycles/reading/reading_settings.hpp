#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/cycles/reading/time_form.hpp>

namespace ohmwright::cycles {

/// A column that the user picked: "coil_temperature=T2:degC".
struct ColumnChoice {
  /// A name of `LogQuantity`, or "time", "date", "clock".
  std::string quantity;
  /// The header's name (letter case and "-", "_" do not count), or the column's number from 1.
  std::string column;
  /// A unit of the quantity; of time: "s", "min", "h", "ms", "epoch", "epoch_ms", "day_first", "month_first". Empty: as
  /// the header says, or guessed.
  std::string unit;
};

/// What the user says of a log's form; everything else is found out from its first lines, and said.
struct LogReadingSettings {
  /// Where a quantity is picked, only picked ones are read; time is found out unless it is picked too.
  std::vector<ColumnChoice> columns;
  std::optional<char> separator;
  std::optional<DateOrder> date_order;
  /// Interval of the rows [s] of a log that has no time column, or whose own time is not to be used.
  std::optional<double> row_interval_second;
};

}  // namespace ohmwright::cycles
