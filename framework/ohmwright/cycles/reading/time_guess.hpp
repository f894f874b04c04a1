#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/cycles/log_finding.hpp>
#include <ohmwright/cycles/reading/head_table.hpp>
#include <ohmwright/cycles/reading/time_form.hpp>

namespace ohmwright::cycles {

/// Where a log's time stands and how it is written.
struct GuessedTime {
  std::size_t column = 0;
  std::optional<std::size_t> clock_column;
  TimeForm form;
};

/// The time of the rows: in `column` where it is given, else in the column that is named and written like time, or is
/// written so, or is a number that only grows. `unit` is what the user says of it. Nothing when no column will do.
/// What was guessed is added to `findings`. Throws InputError for a unit that time does not have.
std::optional<GuessedTime> guess_time(const HeadTable& table, std::optional<std::size_t> column,
                                      std::optional<std::size_t> clock_column, const std::string& unit,
                                      std::optional<DateOrder> order, std::vector<LogFinding>& findings);

/// The form of a column's cells, if they are times: shared by the guess and by columns that were picked.
std::optional<TimeForm> form_of_time_cells(const std::vector<std::string>& cells, const std::string& header,
                                           const std::string& unit, std::vector<LogFinding>& findings);

}  // namespace ohmwright::cycles
