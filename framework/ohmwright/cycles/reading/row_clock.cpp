#include <algorithm>
#include <cmath>
#include <cstdint>

#include <ohmwright/cycles/reading/calendar.hpp>
#include <ohmwright/cycles/reading/row_clock.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double hour_second = 3600.0;
constexpr double day_length_second = 86400.0;

/// Clocks are set forward in a night to Sunday of March or April, in the south of September to November (common
/// practice, no source).
bool may_begin_summer_time(double second) {
  const auto day = static_cast<std::int64_t>(std::floor(second / day_length_second));
  constexpr std::int64_t days_from_sunday = 4;  // 1970-01-01 was a Thursday
  const bool is_sunday = ((day + days_from_sunday) % 7 + 7) % 7 == 0;
  if (!is_sunday) return false;
  const auto year = 1970 + static_cast<std::int64_t>(std::floor(static_cast<double>(day) / 365.2425));
  const auto within = [&](unsigned first_month, unsigned last_month) {
    return day >= days_since_epoch(year, first_month, 1) && day < days_since_epoch(year, last_month + 1, 1);
  };
  return within(3, 4) || within(9, 11);
}

}  // namespace

bool RowClock::leaps_into_summer_time(double second) const {
  constexpr double latest_hour_second = 4.0 * hour_second;  // of the night, by the new time
  const double edge = 1.5 * step_ + 1.0;                    // a row may lie so far from the full hour
  if (!is_local_ || step_ <= 0.0 || edge > hour_second / 4.0) return false;
  const double before_hour = hour_second - std::fmod(last_, hour_second);
  const double after_hour = std::fmod(second, hour_second);
  const bool at_full_hours = before_hour <= edge && after_hour <= edge;
  const double leapt = second - last_ - before_hour - after_hour;
  const double second_of_day = std::fmod(second, day_length_second);
  return at_full_hours && std::abs(leapt - hour_second) < 1.0 && second_of_day < latest_hour_second &&
         may_begin_summer_time(second);
}

RowClock::Place RowClock::take_later(double second, double& time) {
  const bool is_set_forward = leaps_into_summer_time(second);
  if (second >= last_ + leap_second && !is_set_forward) return Place::leaps;
  if (is_set_forward)
    first_ += hour_second;
  else
    step_ = second - last_;
  last_ = second;
  time = second - first_;
  return is_set_forward ? Place::set_forward : Place::follows;
}

double RowClock::accept_leap(double second) {
  double time = second - first_;
  if (is_set_ahead_by(second)) {
    time = last_ - first_ + step_;
    first_ = start_ = second - time;
    earliest_ = second;
  } else {
    step_ = second - last_;
  }
  last_ = second;
  return time;
}

/// A clock that was lost, as after a power cut, begins at a date before all of the log. Older rows that are copied in
/// lie within it.
bool RowClock::runs_on_from_earlier(double second) {
  constexpr int enough_rows = 3;
  if (second > earliest_ - hour_second) {
    earlier_rows_ = 0;
    return false;
  }
  const double passed = second - earlier_;
  earlier_rows_ = earlier_rows_ > 0 && passed > 0.0 && passed < usual_step_second ? earlier_rows_ + 1 : 1;
  earlier_ = second;
  return earlier_rows_ > enough_rows;
}

RowClock::Place RowClock::take_rare(double second, double& time) {
  if (!any_) {
    any_ = true;
    start_ = earliest_ = first_ = last_ = second;
    time = 0.0;
    return Place::follows;
  }
  if (second == last_) {
    time = second - first_;
    return Place::repeats;
  }
  if (second > last_) return take_later(second, time);
  // 02:59:55 is followed by 02:00:00: back by an hour less one step.
  const double back_second = last_ - second;
  if (is_local_ && back_second < hour_second && back_second >= hour_second - std::max(60.0, 3.0 * step_)) {
    first_ -= hour_second;
    last_ = second;
    time = second - first_;
    return Place::set_back;
  }
  if (!runs_on_from_earlier(second)) return Place::precedes;
  // How long the clock stood is not known: the rows are taken to go on a step later.
  time = last_ - first_ + step_;
  first_ = second - time;
  earliest_ = last_ = second;
  earlier_rows_ = 0;
  return Place::begins_anew;
}

}  // namespace ohmwright::cycles
