#include <chrono>
#include <cmath>

#include <fmt/format.h>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/log_words.hpp>
#include <ohmwright/verdict/caution.hpp>

namespace ohmwright {

namespace {

constexpr double second_per_minute = 60.0;

}  // namespace

std::string rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  double shown = std::round(value * scale) / scale;
  if (shown == 0.0) shown = 0.0;  // no "-0"
  std::string text = std::to_string(shown);
  text.erase(text.find('.') + (decimals > 0 ? 1U + static_cast<std::size_t>(decimals) : 0U));
  return text;
}

std::string duration_text(double seconds) {
  const auto minutes = static_cast<long long>(std::llround(seconds / second_per_minute));
  if (minutes < 1) return rounded(seconds) + " s";
  if (minutes < 120) return std::to_string(minutes) + " min";
  const long long hours = minutes / 60;
  if (hours < 48) return std::to_string(hours) + " h " + std::to_string(minutes % 60) + " min";
  return std::to_string(hours / 24) + " d " + std::to_string(hours % 24) + " h";
}

std::string degrees_text(double kelvin) { return rounded(kelvin - cycles::melting_point_kelvin, 1) + " °C"; }

std::string argument_text(const cycles::LogFinding& finding, std::string_view name) {
  const std::optional<double> number = finding.number(name);
  if (!number) return finding.text(name);
  const bool is_count = *number == std::round(*number);
  return rounded(*number, is_count || *number >= 10.0 ? 0 : 2);
}

std::vector<std::string> log_brief_cautions(const Sentences& say, std::string_view step) {
  std::vector<std::string> lines;
  for (const std::string_view id : cautions_of_step(step)) lines.push_back(say(caution_named(id)->brief));
  lines.push_back(say(OHMWRIGHT_TEXT("Local codes and licensed practice come before this list")));
  return lines;
}

std::string log_time_text(double second, std::optional<double> start_second) {
  return start_second ? log_date_text(*start_second + second) : duration_text(second);
}

std::string log_date_text(double second) {
  const std::chrono::sys_seconds at{std::chrono::seconds(static_cast<long long>(std::floor(second)))};
  const auto day = std::chrono::floor<std::chrono::days>(at);
  const std::chrono::year_month_day date(day);
  const std::chrono::hh_mm_ss clock(at - day);
  return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), clock.hours().count(),
                     clock.minutes().count());
}

}  // namespace ohmwright
