#pragma once

#include <cstdint>

namespace ohmwright::cycles {

/// Whether a row's time follows the row before.
class RowClock {
 public:
  enum class Place : std::uint8_t {
    follows,
    repeats,      ///< the same time again
    precedes,     ///< before the row before
    leaps,        ///< so far ahead that it may be a false stamp: what comes next decides
    set_back,     ///< local time went back by an hour and runs on from there
    set_forward,  ///< local time leapt an hour ahead at the begin of summer time: no time passed unlogged
    begins_anew,  ///< the logger's clock was lost and counts on from an earlier date, some rows ago
  };

  /// `is_local`: no zone is written, so that the end of summer time sets the clock back, and its begin forward.
  explicit RowClock(bool is_local) : is_local_(is_local) {}

  /// Place of a row at `second`; but for `precedes` and `leaps`, `time` is its time [s] since the first row.
  Place take(double second, double& time) {
    if (second > last_ && second < last_ + usual_step_second && any_) {
      step_ = second - last_;
      last_ = second;
      time = second - first_;
      return Place::follows;
    }
    return take_rare(second, time);
  }

  /// Whether a row that leapt shows a clock that was set, not rows that are missing: no logger stops for so long and
  /// goes on in the same file.
  bool is_set_ahead_by(double second) const { return second - last_ > longest_pause_second; }
  /// Takes a row that leapt for good, and gives its time.
  double accept_leap(double second);

  bool any() const { return any_; }
  /// The first row's, as it stands in the log, unless its clock was not yet set: then as it should have stood.
  double start_second() const { return start_; }
  double last_second() const { return last_; }
  double step_second() const { return step_; }  ///< from the row before the last to the last

 private:
  static constexpr double usual_step_second = 1800.0;
  static constexpr double leap_second = 3600.0;
  static constexpr double longest_pause_second = 400.0 * 86400.0;

  Place take_rare(double second, double& time);
  Place take_later(double second, double& time);
  bool leaps_into_summer_time(double second) const;
  bool runs_on_from_earlier(double second);

  bool is_local_;
  bool any_ = false;
  double start_ = 0.0;
  double first_ = 0.0;  ///< where times count from: the start, moved by what the clock was set
  double last_ = 0.0;
  double step_ = 0.0;
  double earliest_ = 0.0;  ///< the first row's stamp since the clock began
  double earlier_ = 0.0;   ///< stamp of the row before, where it preceded all
  int earlier_rows_ = 0;   ///< that ran on from each other
};

}  // namespace ohmwright::cycles
