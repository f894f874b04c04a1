#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include <ohmwright/cycles/reading/calendar.hpp>

namespace ohmwright::cycles {

/// How a log writes time.
enum class TimeWriting : std::uint8_t {
  calendar,    ///< a date and a clock time, in one cell or two
  clock,       ///< a clock time alone: past midnight it begins anew
  elapsed,     ///< a number since some start, or "26:05:30"
  epoch,       ///< a number since 1970-01-01 UTC
  serial_day,  ///< days since 1899-12-30, as spreadsheets count
  row_count,   ///< no time at all: rows are a stated interval apart
};

/// "calendar", "clock", "elapsed", "epoch", "serial_day", "row_count".
std::string_view name_of(TimeWriting writing);

struct TimeForm {
  TimeWriting writing = TimeWriting::calendar;
  DateOrder order = DateOrder::year_first;
  bool order_is_guessed = false;   ///< day and month could be the other way round
  bool has_clock_column = false;   ///< the date stands in one column, the clock time in another
  double second_per_number = 1.0;  ///< of elapsed, epoch and serial_day; the rows' interval of row_count
  char decimal_sign = '.';         ///< of elapsed, epoch and serial_day
  bool has_zone = false;           ///< the first row says its zone
};

}  // namespace ohmwright::cycles
