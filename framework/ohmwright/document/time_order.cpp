#include <charconv>
#include <cmath>
#include <optional>
#include <system_error>

#include <ohmwright/document/time_order.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view forms =
    "expected a number, such as \"12.5\", a clock time, such as \"14:05:30\", or a date with the year first, such as "
    "\"2024-03-01 14:05\"";

/// Takes a whole number off the text.
std::optional<long> take_whole(std::string_view& text) {
  long number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || number < 0) return std::nullopt;
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  return number;
}

std::optional<double> whole_text_as_number(std::string_view text) {
  double number = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(number)) return std::nullopt;
  return number;
}

bool take_letter(std::string_view& text, char letter) {
  if (!text.starts_with(letter)) return false;
  text.remove_prefix(1);
  return true;
}

/// "14:05", "14:05:30.25", "14:05:30Z" in seconds.
std::optional<double> clock_in(std::string_view text) {
  const std::optional<long> hours = take_whole(text);
  if (!hours || !take_letter(text, ':')) return std::nullopt;
  const std::optional<long> minutes = take_whole(text);
  if (!minutes || *minutes > 59) return std::nullopt;
  if (text.ends_with('Z')) text.remove_suffix(1);
  double seconds = 0.0;
  if (take_letter(text, ':')) {
    const std::optional<double> read = whole_text_as_number(text);
    if (!read || *read < 0.0 || *read >= 61.0) return std::nullopt;  // 60 is a leap second
    seconds = *read;
  } else if (!text.empty()) {
    return std::nullopt;
  }
  return 3600.0 * static_cast<double>(*hours) + 60.0 * static_cast<double>(*minutes) + seconds;
}

}  // namespace

TimeOrder::Time TimeOrder::read(std::string_view text) {
  if (const std::optional<double> number = whole_text_as_number(text)) return {Form::number, 0, *number};
  if (const std::optional<double> clock = clock_in(text)) return {Form::clock, 0, *clock};
  const std::optional<long> year = take_whole(text);
  if (!year || *year < 1000 || *year > 9999 || text.empty()) return {};
  const char mark = text.front();
  if (mark != '-' && mark != '/' && mark != '.') return {};
  text.remove_prefix(1);
  const std::optional<long> month = take_whole(text);
  if (!month || *month > 12 || !take_letter(text, mark)) return {};
  const std::optional<long> day = take_whole(text);
  if (!day || *day > 31) return {};
  const Time date{Form::date, (*year * 12 + *month) * 32 + *day, 0.0};
  if (text.empty()) return date;
  if (!take_letter(text, ' ') && !take_letter(text, 'T')) return {};
  const std::optional<double> clock = clock_in(text);
  return clock ? Time{Form::date, date.day, *clock} : Time{};
}

std::string TimeOrder::take(std::string_view text) {
  if (given_up_) return "";
  const Time time = read(text);
  given_up_ = time.form == Form::none && last_.form == Form::none;
  if (time.form == Form::none) return ohmwright::quoted(text) + " is no time: " + std::string(forms);
  if (last_.form != Form::none && time.form != last_.form)
    return ohmwright::quoted(text) + " is written in another way than " + ohmwright::quoted(last_text_) +
           "; all times of a series are written in one";
  const bool backwards =
      last_.form != Form::none && (time.day < last_.day || (time.day == last_.day && time.seconds < last_.seconds));
  std::string trouble;
  if (backwards) {
    trouble = "time runs backwards: " + ohmwright::quoted(text) + " after " + ohmwright::quoted(last_text_);
    if (time.form == Form::clock) trouble += "; where midnight has passed, write the date too";
  }
  last_ = time;
  last_text_ = std::string(text);
  return trouble;
}

}  // namespace ohmwright
