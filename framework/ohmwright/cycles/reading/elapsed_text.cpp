#include <ohmwright/cycles/reading/calendar.hpp>
#include <ohmwright/cycles/reading/elapsed_text.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double seconds_of_whole_day = 86400.0;
constexpr int most_elapsed_hours = 99999;

bool take_text(std::string_view& text, std::string_view what) {
  if (!text.starts_with(what)) return false;
  text.remove_prefix(what.size());
  return true;
}

/// "1.", "1d", "1 day,", "2 days " before a clock time: so many days.
std::optional<double> take_days(std::string_view& text) {
  std::string_view ahead = text;
  double days = 0.0;
  while (!ahead.empty() && detail::is_digit(ahead.front())) {
    days = days * 10.0 + (ahead.front() - '0');
    ahead.remove_prefix(1);
  }
  if (ahead.size() == text.size()) return std::nullopt;
  const bool is_pointed = take_text(ahead, ".");
  if (!is_pointed) {
    take_text(ahead, " ");
    if (!take_text(ahead, "days") && !take_text(ahead, "day") && !take_text(ahead, "d")) return std::nullopt;
    take_text(ahead, ",");
    take_text(ahead, " ");
  }
  text = ahead;
  return days;
}

std::optional<double> whole_clock(std::string_view text, int most_hours) {
  const std::optional<ClockText> clock = take_clock(text, false, most_hours);
  if (!clock || !text.empty() || clock->zone_second || clock->is_twelve_hour) return std::nullopt;
  return clock->second_of_day;
}

}  // namespace

std::optional<double> elapsed_second(std::string_view text) {
  if (const std::optional<double> second = whole_clock(text, most_elapsed_hours)) return second;
  const std::optional<double> days = take_days(text);
  if (!days || text.find(':') == std::string_view::npos) return std::nullopt;
  constexpr int hours_of_a_day = 23;
  const std::optional<double> second = whole_clock(text, hours_of_a_day);
  if (!second) return std::nullopt;
  return *days * seconds_of_whole_day + *second;
}

}  // namespace ohmwright::cycles
