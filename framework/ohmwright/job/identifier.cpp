#include <algorithm>
#include <chrono>
#include <cstddef>

#include <fmt/format.h>

#include <ohmwright/job/identifier.hpp>

namespace ohmwright::job {

namespace {

constexpr std::int64_t ms_a_day = 86'400'000;

bool is_hexadecimal(char letter) { return (letter >= '0' && letter <= '9') || (letter >= 'a' && letter <= 'f'); }

/// The digits at `at`, or nothing where one of them is none.
std::optional<int> digits_at(std::string_view text, std::size_t at, std::size_t count) {
  int value = 0;
  for (std::size_t i = at; i < at + count; ++i) {
    if (text[i] < '0' || text[i] > '9') return std::nullopt;
    value = value * 10 + (text[i] - '0');
  }
  return value;
}

}  // namespace

std::string identifier_of(std::array<std::uint8_t, 16> random) {
  random[6] = static_cast<std::uint8_t>((random[6] & 0x0FU) | 0x40U);  // version 4
  random[8] = static_cast<std::uint8_t>((random[8] & 0x3FU) | 0x80U);  // variant of RFC 9562
  std::string text;
  for (std::size_t i = 0; i < random.size(); ++i) {
    if (i == 4 || i == 6 || i == 8 || i == 10) text += '-';
    text += fmt::format("{:02x}", random.at(i));
  }
  return text;
}

bool is_identifier(std::string_view text) {
  if (text.size() != 36) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool hyphen = i == 8 || i == 13 || i == 18 || i == 23;
    if (hyphen ? text[i] != '-' : !is_hexadecimal(text[i])) return false;
  }
  return true;
}

std::string time_text(std::int64_t milliseconds) {
  constexpr std::int64_t last = 253'402'300'799'999;  // 9999-12-31T23:59:59.999Z
  const std::int64_t at = std::clamp<std::int64_t>(milliseconds, 0, last);
  const std::chrono::year_month_day day{std::chrono::sys_days{std::chrono::days{at / ms_a_day}}};
  const std::int64_t in_day = at % ms_a_day;
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", static_cast<int>(day.year()),
                     static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()), in_day / 3'600'000,
                     in_day / 60'000 % 60, in_day / 1000 % 60, in_day % 1000);
}

std::optional<std::int64_t> milliseconds_of(std::string_view time) {
  constexpr std::string_view form = "0000-00-00T00:00:00.000Z";
  if (time.size() != form.size()) return std::nullopt;
  for (std::size_t i = 0; i < form.size(); ++i)
    if (form[i] != '0' && time[i] != form[i]) return std::nullopt;
  std::array<int, 7> fields{};
  constexpr std::array<std::array<std::size_t, 2>, 7> places{
      {{0, 4}, {5, 2}, {8, 2}, {11, 2}, {14, 2}, {17, 2}, {20, 3}}};
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const std::optional<int> field = digits_at(time, places.at(i)[0], places.at(i)[1]);
    if (!field) return std::nullopt;
    fields.at(i) = *field;
  }
  const std::chrono::year_month_day day{std::chrono::year{fields[0]},
                                        std::chrono::month{static_cast<unsigned>(fields[1])},
                                        std::chrono::day{static_cast<unsigned>(fields[2])}};
  if (!day.ok() || fields[0] < 1970 || fields[3] > 23 || fields[4] > 59 || fields[5] > 59) return std::nullopt;
  const std::int64_t days = std::chrono::sys_days{day}.time_since_epoch().count();
  return days * ms_a_day + fields[3] * 3'600'000LL + fields[4] * 60'000LL + fields[5] * 1000LL + fields[6];
}

}  // namespace ohmwright::job
