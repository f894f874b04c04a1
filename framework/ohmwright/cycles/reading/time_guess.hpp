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

/// The time of the rows: in the column `picked` where it is given, else in the column that is named and written like
/// time, or is written so, or is a number that only grows. `unit` is what the user says of it. Nothing when no column
/// will do. What was guessed is added to `findings`. Throws InputError for a unit that time does not have.
std::optional<GuessedTime> guess_time(const HeadTable& table, std::optional<std::size_t> picked,
                                      std::optional<std::size_t> picked_clock, const std::string& unit,
                                      std::optional<DateOrder> order, std::vector<LogFinding>& findings);

}  // namespace ohmwright::cycles
