#pragma once

#include <chrono>
#include <deque>
#include <optional>

#include <ohmwright/instrument/settling.hpp>

namespace ohmwright::instrument {

/// The values up to the last one that agree with each other, put together by moments, so that an instrument of a
/// thousand values a second takes no more memory than one of two.
class SettlingWindow {
 public:
  using Time = std::chrono::steady_clock::time_point;

  explicit SettlingWindow(const Settling& settling) : settling_(settling) {}

  /// Takes a value [SI], or nothing for over-range, and drops what no longer agrees with it.
  void take(Time at, std::optional<double> value);

  /// Whether they are enough, span the time, and move slowly enough.
  bool is_settled() const;
  std::size_t count() const;
  std::chrono::milliseconds span() const;
  /// How far they would move in `Settling::outlook` at their pace [SI]; nothing where no pace can be told yet.
  std::optional<double> movement() const;

 private:
  /// Values that came so close together that their mean stands for them.
  struct Moment {
    Time first;
    Time last;
    std::size_t count = 0;
    double sum = 0.0;
    double smallest = 0.0;
    double largest = 0.0;
  };

  void add(Time at, double value);
  double extent() const;
  double tolerance() const;

  Settling settling_;
  std::deque<Moment> moments_;
  bool over_range_ = false;
};

}  // namespace ohmwright::instrument
