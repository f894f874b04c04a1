#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace ohmwright::cycles {

/// Which part of a numeric date comes first.
enum class DateOrder : std::uint8_t { year_first, day_first, month_first };

/// Days since 1970-01-01 of a date in the Gregorian calendar (ISO 8601). Source: H. Hinnant, "chrono-compatible
/// low-level date algorithms", days_from_civil; checked against POSIX timegm in the tests.
std::int64_t days_since_epoch(std::int64_t year, unsigned month, unsigned day);

/// True for a date that exists: month 1…12, day 1…28/29/30/31.
bool date_exists(std::int64_t year, unsigned month, unsigned day);

/// A date as text holds it, its numbers not yet put in order.
struct DateText {
  std::int64_t first = 0;
  std::int64_t second = 0;
  std::int64_t third = 0;
  bool year_leads = false;        ///< "2024-03-01": nothing to guess
  bool month_is_named = false;    ///< "1-Mar-2024", "Mar 1, 2024": `first` is the day, `second` the month
  bool may_be_day_first() const;  ///< both fit when day and month are at most 12
  bool may_be_month_first() const;
};

/// Takes a date off the front of `text`: numbers parted by "-", "/" or "." in any order, "20240301", a month by its
/// English name, a weekday before it. Nothing where there is none; `text` is then as before.
std::optional<DateText> take_date(std::string_view& text);

/// Days since 1970-01-01 in the order given (ignored where the text leaves no doubt); nothing for a date that does not
/// exist. Years of two digits are 1970…2069.
std::optional<std::int64_t> day_number(const DateText& date, DateOrder order);

/// A clock time.
struct ClockText {
  double second_of_day = 0.0;           ///< [s]; an elapsed time may pass 86 400
  std::optional<double> zone_second{};  ///< ahead of UTC
  bool has_seconds = false;
  bool is_twelve_hour = false;  ///< with AM or PM
};

/// Takes a clock time off the front: "14:05", "14:05:30.25", "14.05.30", "2:05:30 PM", "140530" after a compact date,
/// with "Z", "UTC" or "+02:00" behind it. Hours may go up to `most_hours`.
std::optional<ClockText> take_clock(std::string_view& text, bool may_be_compact = false, int most_hours = 24);

}  // namespace ohmwright::cycles
