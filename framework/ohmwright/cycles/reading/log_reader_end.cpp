// What a reader can tell once it has read the last row.
#include <algorithm>
#include <cmath>
#include <string>

#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cycles {

namespace {

std::string_view name_of(DateOrder order) {
  switch (order) {
    case DateOrder::day_first:
      return "day_first";
    case DateOrder::month_first:
      return "month_first";
    case DateOrder::year_first:
      break;
  }
  return "year_first";
}

}  // namespace

void LogReader::finish() {
  if (held_) {
    second_ = held_->second;
    settle_held_row();
  }
  if (lines_.took_away_a_line()) troubles_.add(LogTrouble::line_too_long, lines_.line());
  if (lines_.last_line_was_open()) {
    troubles_.add(LogTrouble::cut_last_line, lines_.line());
    findings_.push_back({"last-line-open"});
  }
  if (const std::optional<std::string_view> why = lines_.source().ended_early()) findings_.push_back({*why, {}});
  settle_date_order();
  if (time_.clock_was_elapsed()) say_elapsed();
  tell_times_gone_back();
  tell_unreadable_times();
}

/// Hours past 24 proved that a column was no clock.
void LogReader::say_elapsed() {
  std::erase_if(findings_, [](const LogFinding& one) { return one.id == "time-has-no-date"; });
  for (LogFinding& finding : findings_)
    for (LogArgument& argument : finding.arguments)
      if (finding.id == "time-of-log" && argument.name == "writing")
        argument.value = std::string(name_of(TimeWriting::elapsed));
}

void LogReader::tell_times_gone_back() {
  // Past noon and past midnight a dial begins anew at one: the half of the rows that is left out lies in each half day.
  if (went_back_.half_days() > 0 && time_.hours_are_of_a_dial()) {
    findings_.push_back({"clock-counts-twelve-hours",
                         {{"line", static_cast<double>(went_back_.half_day_line())},
                          {"step_second", std::round(went_back_.half_day_step_second())}},
                         true});
    return;
  }
  constexpr std::uint64_t chance_rows = 10;
  if (went_back_.rows() <= chance_rows) return;
  findings_.push_back({"times-went-back",
                       {{"line", static_cast<double>(went_back_.line())},
                        {"rows", static_cast<double>(went_back_.rows())},
                        {"minutes", std::max(1.0, std::round(went_back_.second() / 60.0))}},
                       true});
}

void LogReader::tell_unreadable_times() {
  const TroubleCount& trouble = troubles_.of(LogTrouble::unreadable_time);
  if (rows_ > 0 || trouble.count == 0) return;
  findings_.push_back({"no-time-read",
                       {{"line", static_cast<double>(trouble.first_lines.front())},
                        {"text", ohmwright::quoted(first_unreadable_time_)}},
                       true});
}

/// What the head of the log left open, its later dates may have settled.
void LogReader::settle_date_order() {
  if (!time_.order_was_changed()) return;
  std::erase_if(findings_, [](const LogFinding& one) { return one.id.starts_with("day-month-order"); });
  findings_.push_back({"day-month-order-changed", {{"order", std::string(name_of(time_.form().order))}}});
}

}  // namespace ohmwright::cycles
