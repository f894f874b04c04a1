#include <algorithm>

#include <ohmwright/cycles/reading/row_clock.hpp>

namespace ohmwright::cycles {

RowClock::Place RowClock::take_rare(double second, double& time) {
  if (!any_) {
    any_ = true;
    first_ = last_ = second;
    time = 0.0;
    return Place::follows;
  }
  if (second == last_) {
    time = second - first_;
    return Place::repeats;
  }
  if (second > last_) return Place::leaps;
  // 02:59:55 is followed by 02:00:00: back by an hour less one step.
  const double back_second = last_ - second;
  constexpr double hour_second = 3600.0;
  if (is_local_ && back_second < hour_second && back_second >= hour_second - std::max(60.0, 3.0 * step_)) {
    first_ -= hour_second;
    last_ = second;
    time = second - first_;
    return Place::set_back;
  }
  return Place::precedes;
}

}  // namespace ohmwright::cycles
