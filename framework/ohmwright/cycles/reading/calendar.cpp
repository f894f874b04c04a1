#include <algorithm>
#include <array>
#include <string>

#include <ohmwright/cycles/reading/calendar.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/quantity/letter_case.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::array<std::string_view, 12> months{"jan", "feb", "mar", "apr", "may", "jun",
                                                  "jul", "aug", "sep", "oct", "nov", "dec"};
constexpr std::array<std::string_view, 7> weekdays{"mon", "tue", "wed", "thu", "fri", "sat", "sun"};

struct Digits {
  std::int64_t number = 0;
  std::size_t count = 0;
};

std::optional<Digits> take_digits(std::string_view& text, std::size_t most) {
  Digits digits;
  while (digits.count < most && digits.count < text.size() && detail::is_digit(text[digits.count]))
    digits.number = digits.number * 10 + (text[digits.count++] - '0');
  if (digits.count == 0) return std::nullopt;
  text.remove_prefix(digits.count);
  return digits;
}

bool take_letter(std::string_view& text, char letter) {
  if (!text.starts_with(letter)) return false;
  text.remove_prefix(1);
  return true;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

void skip(std::string_view& text, std::string_view what) {
  while (!text.empty() && what.find(text.front()) != std::string_view::npos) text.remove_prefix(1);
}

std::string take_word(std::string_view& text) {
  std::size_t length = 0;
  while (length < text.size() && is_letter(text[length])) ++length;
  std::string word = lower_case(text.substr(0, length));
  text.remove_prefix(length);
  return word;
}

template <std::size_t Count>
std::optional<std::int64_t> place_of(const std::string& word, const std::array<std::string_view, Count>& names) {
  for (std::size_t i = 0; word.size() >= 3 && i < Count; ++i)
    if (word.starts_with(names[i])) return static_cast<std::int64_t>(i) + 1;
  return std::nullopt;
}

/// "Mar 1, 2024", after the month's name.
std::optional<DateText> named_month_first(std::string_view& text, std::int64_t month) {
  skip(text, " -.");
  const std::optional<Digits> day = take_digits(text, 2);
  if (!day) return std::nullopt;
  skip(text, " ,-");
  const std::optional<Digits> year = take_digits(text, 4);
  if (!year || year->count == 3) return std::nullopt;
  return DateText{day->number, month, year->number, false, true};
}

std::optional<DateText> numbers_of_date(std::string_view& text) {
  const std::optional<Digits> first = take_digits(text, 8);
  if (!first) return std::nullopt;
  if (first->count == 8) {
    if (!text.empty() && detail::is_digit(text.front()) && text.size() < 4) return std::nullopt;
    return DateText{first->number / 10000, first->number / 100 % 100, first->number % 100, true};
  }
  if (first->count > 4 || first->count == 3 || text.empty()) return std::nullopt;
  const char mark = text.front();
  if (mark != '-' && mark != '/' && mark != '.' && mark != ' ') return std::nullopt;
  text.remove_prefix(1);
  if (!text.empty() && is_letter(text.front()) && first->count <= 2) {
    const std::optional<std::int64_t> month = place_of(take_word(text), months);
    skip(text, " -/.,");
    const std::optional<Digits> year = take_digits(text, 4);
    if (!month || !year || year->count % 2 != 0) return std::nullopt;
    return DateText{first->number, *month, year->number, false, true};
  }
  if (mark == ' ') return std::nullopt;
  const std::optional<Digits> second = take_digits(text, 2);
  if (!second || !take_letter(text, mark)) return std::nullopt;
  const std::optional<Digits> third = take_digits(text, 4);
  if (!third || third->count == 3) return std::nullopt;
  if (first->count == 4 ? third->count > 2 : third->count == 1) return std::nullopt;
  return DateText{first->number, second->number, third->number, first->count == 4};
}

std::int64_t whole_year(std::int64_t year) {
  if (year >= 100) return year;
  return year < 70 ? 2000 + year : 1900 + year;
}

std::optional<double> take_zone(std::string_view& text) {
  std::string_view ahead = text;
  skip(ahead, " ");
  for (const std::string_view name : {"Z", "UTC", "GMT", "z"})
    if (ahead.starts_with(name)) {
      text = ahead.substr(name.size());
      const std::optional<double> further = take_zone(text);
      return further ? further : std::optional<double>(0.0);
    }
  if (ahead.empty() || (ahead.front() != '+' && ahead.front() != '-')) return std::nullopt;
  const double sign = ahead.front() == '-' ? -1.0 : 1.0;
  ahead.remove_prefix(1);
  const std::optional<Digits> hours = take_digits(ahead, 2);
  if (!hours || hours->number > 15) return std::nullopt;
  take_letter(ahead, ':');
  const std::optional<Digits> minutes = take_digits(ahead, 2);
  if (minutes && minutes->number > 59) return std::nullopt;
  text = ahead;
  return sign *
         (3600.0 * static_cast<double>(hours->number) + 60.0 * static_cast<double>(minutes ? minutes->number : 0));
}

/// ":250", milliseconds and nothing else behind a third colon.
bool are_milliseconds(std::string_view text) {
  constexpr std::size_t length = 4;
  return text.size() >= length && text.front() == ':' && detail::is_digit(text[1]) && detail::is_digit(text[2]) &&
         detail::is_digit(text[3]) && (text.size() == length || !detail::is_digit(text[length]));
}

/// ".25", ",25" or ":250".
double take_fraction(std::string_view& text) {
  if (text.size() < 2 || (text.front() != '.' && text.front() != ',' && !are_milliseconds(text)) ||
      !detail::is_digit(text[1]))
    return 0.0;
  text.remove_prefix(1);
  double fraction = 0.0;
  double place = 0.1;
  for (; !text.empty() && detail::is_digit(text.front()); text.remove_prefix(1), place *= 0.1)
    fraction += place * (text.front() - '0');
  return fraction;
}

/// Puts AM and PM right; false when the hour does not fit.
bool take_half_of_day(std::string_view& text, std::int64_t& hours, bool& is_twelve_hour) {
  std::string_view ahead = text;
  skip(ahead, " ");
  std::string word = take_word(ahead);
  if (word == "a" || word == "p") {  // "a.m.", "p. m.", "p"
    take_letter(ahead, '.');
    skip(ahead, " ");
    word += ahead.empty() ? "m" : take_word(ahead);
    take_letter(ahead, '.');
  }
  if (word != "am" && word != "pm") return true;
  if (hours < 1 || hours > 12) return false;
  text = ahead;
  is_twelve_hour = true;
  hours = hours % 12 + (word == "pm" ? 12 : 0);
  return true;
}

}  // namespace

std::int64_t days_since_epoch(std::int64_t year, unsigned month, unsigned day) {
  year -= month <= 2 ? 1 : 0;
  const std::int64_t era = (year >= 0 ? year : year - 399) / 400;
  const std::int64_t year_of_era = year - era * 400;
  const std::int64_t day_of_year = (153 * (static_cast<std::int64_t>(month) + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
  const std::int64_t day_of_era = year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year;
  return era * 146097 + day_of_era - 719468;
}

bool date_exists(std::int64_t year, unsigned month, unsigned day) {
  constexpr std::array<unsigned, 12> days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  if (month < 1 || month > 12 || day < 1) return false;
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return day <= days[month - 1] + (month == 2 && leap ? 1U : 0U);
}

bool DateText::may_be_day_first() const {
  return !year_leads && second >= 1 && second <= 12 &&
         date_exists(whole_year(third), static_cast<unsigned>(second), static_cast<unsigned>(first));
}

bool DateText::may_be_month_first() const {
  return !year_leads && !month_is_named && first >= 1 && first <= 12 &&
         date_exists(whole_year(third), static_cast<unsigned>(first), static_cast<unsigned>(second));
}

std::optional<DateText> take_date(std::string_view& text) {
  std::string_view ahead = text;
  std::optional<DateText> date;
  if (!ahead.empty() && is_letter(ahead.front())) {
    std::string word = take_word(ahead);
    if (place_of(word, weekdays)) {
      skip(ahead, " ,.");
      word = take_word(ahead);
    }
    if (const std::optional<std::int64_t> month = place_of(word, months)) date = named_month_first(ahead, *month);
    if (!word.empty() && !date) return std::nullopt;
  }
  if (!date) date = numbers_of_date(ahead);
  if (date) text = ahead;
  return date;
}

std::optional<std::int64_t> day_number(const DateText& date, DateOrder order) {
  std::int64_t year = date.third;
  std::int64_t month = date.second;
  std::int64_t day = date.first;
  const bool may_be_moved = !date.year_leads && !date.month_is_named;
  if (date.year_leads || (may_be_moved && order == DateOrder::year_first))  // "2024-03-01", "24-03-01"
    std::swap(year, day);
  else if (may_be_moved && order == DateOrder::month_first)
    std::swap(month, day);
  year = whole_year(year);
  if (!date_exists(year, static_cast<unsigned>(month), static_cast<unsigned>(day))) return std::nullopt;
  return days_since_epoch(year, static_cast<unsigned>(month), static_cast<unsigned>(day));
}

std::optional<ClockText> take_clock(std::string_view& text, bool may_be_compact, int most_hours) {
  std::string_view ahead = text;
  const std::optional<Digits> first = take_digits(ahead, 6);
  if (!first) return std::nullopt;
  ClockText clock;
  std::int64_t hours = first->number;
  std::int64_t minutes = 0;
  std::int64_t seconds = 0;
  if (may_be_compact && (first->count == 4 || first->count == 6)) {
    clock.has_seconds = first->count == 6;
    hours = first->number / (clock.has_seconds ? 10000 : 100);
    minutes = first->number / (clock.has_seconds ? 100 : 1) % 100;
    seconds = clock.has_seconds ? first->number % 100 : 0;
  } else {
    if (first->count > 5 || ahead.empty()) return std::nullopt;
    const char mark = ahead.front();
    if (mark != ':' && mark != '.' && mark != '-') return std::nullopt;
    ahead.remove_prefix(1);
    const std::optional<Digits> second = take_digits(ahead, 2);
    if (!second || second->count != 2) return std::nullopt;
    minutes = second->number;
    std::string_view further = ahead;
    if (take_letter(further, mark)) {
      const std::optional<Digits> third = take_digits(further, 2);
      if (!third || third->count != 2) return std::nullopt;
      seconds = third->number;
      clock.has_seconds = true;
      ahead = further;
    } else if (mark != ':') {
      return std::nullopt;  // "14.05" is a number, "14-05" a date without its year
    }
  }
  if (minutes > 59 || seconds > 60 || hours > most_hours) return std::nullopt;
  const double fraction = clock.has_seconds ? take_fraction(ahead) : 0.0;
  if (!take_half_of_day(ahead, hours, clock.is_twelve_hour)) return std::nullopt;
  clock.zone_second = take_zone(ahead);
  clock.second_of_day = 3600.0 * static_cast<double>(hours) + 60.0 * static_cast<double>(minutes) +
                        static_cast<double>(seconds) + fraction;
  text = ahead;
  return clock;
}

}  // namespace ohmwright::cycles
