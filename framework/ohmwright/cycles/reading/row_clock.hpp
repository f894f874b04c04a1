#pragma once

#include <cstdint>

namespace ohmwright::cycles {

/// Whether a row's time follows the row before.
class RowClock {
 public:
  enum class Place : std::uint8_t {
    follows,
    repeats,   ///< the same time again
    precedes,  ///< before the row before
    leaps,     ///< so far ahead that it may be a false stamp: what comes next decides
    set_back,  ///< local time went back by an hour and runs on from there
  };

  /// `is_local`: no zone is written, so that the end of summer time sets the clock back.
  explicit RowClock(bool is_local) : is_local_(is_local) {}

  /// Place of a row at `second`; after `follows`, `repeats` and `set_back`, `time` is its time [s] since the first row.
  Place take(double second, double& time) {
    if (second > last_ && second < last_ + leap_second && any_) {
      step_ = second - last_;
      last_ = second;
      time = second - first_;
      return Place::follows;
    }
    return take_rare(second, time);
  }

  /// Takes a row that leapt for good.
  double accept_leap(double second) {
    last_ = second;
    return second - first_;
  }

  bool any() const { return any_; }
  double first_second() const { return first_; }
  double last_second() const { return last_; }

 private:
  static constexpr double leap_second = 3.0 * 86400.0;

  Place take_rare(double second, double& time);

  bool is_local_;
  bool any_ = false;
  double first_ = 0.0;
  double last_ = 0.0;
  double step_ = 0.0;
};

}  // namespace ohmwright::cycles
