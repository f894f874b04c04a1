#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/log_finding.hpp>
#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/cycles/reading/reading_settings.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright::cycles {

/// A column that is read.
struct LogColumn {
  std::size_t index = 0;  ///< from 0
  LogQuantity quantity = LogQuantity::power;
  Unit unit;
  std::string name;  ///< as the header writes it, or "column 3"
};

/// The form of one log.
struct LogDialect {
  char separator = ',';  ///< '\0' where each line is one cell
  char decimal_sign = '.';
  bool has_header = false;
  std::vector<std::string> names;  ///< of all columns
  TimeForm time;
  std::optional<std::size_t> time_column;  ///< from 0; of the date where a clock column stands beside it
  std::optional<std::size_t> clock_column;
  std::vector<LogColumn> columns;
  std::size_t first_data_line = 0;  ///< lines before the first row of values
};

/// The dialect and what was guessed on the way.
struct SniffedDialect {
  LogDialect dialect;
  std::vector<LogFinding> findings;
  bool has_rows = false;      ///< false: nothing in the head looks like a row of values
  bool newest_first = false;  ///< its rows run backwards
};

/// Finds out the form of a log from its first lines (`head`, whole lines). Throws InputError where the settings name
/// what the log does not have, where no column can be time or none can be a quantity.
SniffedDialect sniff_dialect(std::string_view head, const LogReadingSettings& settings);

}  // namespace ohmwright::cycles
