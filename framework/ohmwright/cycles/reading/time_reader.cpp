#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/reading/elapsed_text.hpp>
#include <ohmwright/cycles/reading/time_reader.hpp>
#include <ohmwright/quantity/blanks.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double day_second = 86400.0;

bool is_one_blank_or_mark(char c) {
  return c == 'T' || c == 't' || c == ' ' || c == ',' || c == '_' || c == '-' || c == ':';
}

bool same_date(const DateText& a, const DateText& b) {
  return a.first == b.first && a.second == b.second && a.third == b.third;
}

}  // namespace

std::string_view name_of(TimeWriting writing) {
  switch (writing) {
    case TimeWriting::calendar:
      return "calendar";
    case TimeWriting::clock:
      return "clock";
    case TimeWriting::elapsed:
      return "elapsed";
    case TimeWriting::epoch:
      return "epoch";
    case TimeWriting::serial_day:
      return "serial_day";
    case TimeWriting::row_count:
      return "row_count";
  }
  return "";
}

void RememberedMinute::keep(std::string_view cell, std::size_t seconds_at, std::string_view suffix,
                            double second_at_zero) {
  length_ = 0;
  if (seconds_at == 0 || seconds_at > longest || suffix.size() > suffix_.size()) return;
  std::array<char, longest> start{};
  std::array<char, longest> mask{};
  std::copy_n(cell.begin(), seconds_at, start.begin());
  std::fill_n(mask.begin(), seconds_at, static_cast<char>(-1));
  std::memcpy(start_.data(), start.data(), longest);
  std::memcpy(mask_.data(), mask.data(), longest);
  std::copy(suffix.begin(), suffix.end(), suffix_.begin());
  suffix_length_ = suffix.size();
  second_at_zero_ = second_at_zero;
  length_ = seconds_at;
}

std::optional<double> TimeReader::read(std::string_view cell) {
  switch (form_.writing) {
    case TimeWriting::calendar:
      return calendar(cell);
    case TimeWriting::clock:
      return clock_alone(cell);
    case TimeWriting::row_count:
      return std::nullopt;
    default:
      return number(cell);
  }
}

std::optional<double> TimeReader::read(std::string_view date_cell, std::string_view clock_cell) {
  std::string_view rest = date_cell;
  const std::optional<DateText> date = take_date(rest);
  if (!date) return std::nullopt;
  // Some write "2024-03-01 00:00:00" in the date's column; the other column has the clock time.
  std::string_view clock_rest = clock_cell;
  const std::optional<ClockText> clock = take_clock(clock_rest);
  if (!clock || !without_blanks_around(clock_rest).empty()) return std::nullopt;
  const std::optional<std::int64_t> day = day_of(*date);
  if (!day) return std::nullopt;
  note_hour(*clock);
  return static_cast<double>(*day) * day_second + clock->second_of_day - clock->zone_second.value_or(0.0);
}

void TimeReader::note_hour(const ClockText& clock) {
  constexpr double an_hour_second = 3600.0;
  const double hour = std::floor(clock.second_of_day / an_hour_second);
  least_hour_ = std::min(least_hour_, hour);
  most_hour_ = std::max(most_hour_, hour);
  half_is_written_ = half_is_written_ || clock.is_twelve_hour;
}

std::optional<double> TimeReader::calendar(std::string_view cell) {
  std::string_view rest = cell;
  const std::optional<DateText> date = take_date(rest);
  if (!date) return std::nullopt;
  const std::optional<std::int64_t> day = day_of(*date);
  if (!day) return std::nullopt;
  const double midnight = static_cast<double>(*day) * day_second;
  if (rest.empty()) return midnight;
  while (!rest.empty() && is_one_blank_or_mark(rest.front())) rest.remove_prefix(1);
  const std::string_view clock_text = rest;
  const std::optional<ClockText> clock = take_clock(rest, date->year_leads);
  if (!clock || !without_blanks_around(rest).empty()) return std::nullopt;
  note_hour(*clock);
  const double second = midnight + clock->second_of_day - clock->zone_second.value_or(0.0);
  if (clock->has_seconds) remember(cell, clock_text, second);
  return second;
}

std::optional<double> TimeReader::clock_alone(std::string_view cell) {
  std::string_view rest = cell;
  const std::optional<ClockText> clock = take_clock(rest);
  const bool is_clock = clock && without_blanks_around(rest).empty() && clock->second_of_day <= day_second;
  if (!is_clock) return past_a_day(cell);
  note_hour(*clock);
  // Past midnight the clock falls by nearly a day; anything less is a row out of order.
  if (clock->second_of_day < last_clock_ - day_second / 2) days_passed_second_ += day_second;
  last_clock_ = clock->second_of_day;
  return days_passed_second_ + clock->second_of_day;
}

/// Hours that go on past 24 are no clock's: what was taken for one counts from the start of the log.
std::optional<double> TimeReader::past_a_day(std::string_view cell) {
  if (days_passed_second_ > 0.0) return std::nullopt;
  const std::optional<double> second = elapsed_second(cell);
  if (second) form_.writing = TimeWriting::elapsed;
  return second;
}

std::optional<double> TimeReader::number(std::string_view cell) const {
  const char other = form_.decimal_sign == '.' ? ',' : '.';
  for (const char sign : {form_.decimal_sign, other})
    if (const std::optional<double> number = whole_number_text(cell, sign)) return *number * form_.second_per_number;
  if (form_.writing != TimeWriting::elapsed) return std::nullopt;
  return elapsed_second(cell);
}

std::optional<std::int64_t> TimeReader::day_of(const DateText& date) {
  const bool is_new = !last_date_ || !same_date(date, *last_date_);
  if (is_new && last_date_ && form_.order_is_guessed) settle_order(*last_date_, date);
  const std::optional<std::int64_t> day = day_number(date, form_.order);
  if (!day) return std::nullopt;
  last_date_ = date;
  return *day + day_shift_;
}

/// The guessed order stays where the next date follows by it; another one by which it does takes its place.
void TimeReader::settle_order(const DateText& before, const DateText& now) {
  const auto follows = [&](DateOrder order) {
    constexpr std::int64_t longest_pause_days = 20;
    const std::optional<std::int64_t> first = day_number(before, order);
    const std::optional<std::int64_t> second = day_number(now, order);
    return first && second && *second >= *first && *second - *first < longest_pause_days;
  };
  std::optional<DateOrder> other;
  bool several = false;
  for (const DateOrder order : {DateOrder::day_first, DateOrder::month_first, DateOrder::year_first}) {
    if (order == form_.order || !follows(order)) continue;
    several = other.has_value();
    if (!other) other = order;
  }
  const bool fits = follows(form_.order);
  if (fits != other.has_value()) form_.order_is_guessed = false;
  if (fits || !other || several) return;
  day_shift_ = *day_number(before, form_.order) - *day_number(before, *other);
  form_.order = *other;
  order_was_changed_ = true;
}

void TimeReader::remember(std::string_view cell, std::string_view clock_text, double second) {
  // The seconds are the two digits after the clock's second mark, or its last two where it is compact.
  const auto clock_at = static_cast<std::size_t>(clock_text.data() - cell.data());
  const std::size_t hours_end = cell.find_first_of(":.-", clock_at);
  std::size_t seconds_at = clock_at + 4;
  if (hours_end != std::string_view::npos && hours_end - clock_at <= 2) seconds_at = hours_end + 4;
  if (seconds_at + 2 > cell.size()) return remembered_.forget();
  std::size_t end = seconds_at + 2;
  double seconds = (cell[seconds_at] - '0') * 10 + (cell[seconds_at + 1] - '0');
  if (end < cell.size() && cell[end] == '.') {
    double place = 0.1;
    for (++end; end < cell.size() && detail::is_digit(cell[end]); ++end, place *= 0.1)
      seconds += place * (cell[end] - '0');
  } else if (end < cell.size() && (cell[end] == ',' || cell[end] == ':')) {
    return remembered_.forget();
  }
  remembered_.keep(cell, seconds_at, cell.substr(end), std::round(second - seconds));
}

}  // namespace ohmwright::cycles
