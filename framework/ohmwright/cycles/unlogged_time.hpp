#pragma once

#include <algorithm>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// Stretches in which something was not logged, in order.
class UnloggedTime {
 public:
  struct Gap {
    double start_second = 0.0;
    double end_second = 0.0;
  };

  /// It was logged from `start_second` to `end_second`; gaps shorter than `shortest_second` do not count.
  void logged(double start_second, double end_second, double shortest_second) {
    close(start_second, shortest_second);
    up_to_second_ = end_second;
  }
  /// The log ends here.
  void close(double second, double shortest_second) {
    if (second - up_to_second_ < shortest_second) return;
    total_second_ += second - up_to_second_;
    if (gaps_.size() < LogAnalysis::most_runs) gaps_.push_back({up_to_second_, second});
    up_to_second_ = second;
  }

  double total_second() const { return total_second_; }
  /// How much of [from, to) was not logged [s].
  double within(double from_second, double to_second) const {
    double sum = 0.0;
    auto gap = std::lower_bound(gaps_.begin(), gaps_.end(), from_second,
                                [](const Gap& one, double second) { return one.end_second < second; });
    for (; gap != gaps_.end() && gap->start_second < to_second; ++gap)
      sum += std::max(0.0, std::min(gap->end_second, to_second) - std::max(gap->start_second, from_second));
    return sum;
  }

 private:
  std::vector<Gap> gaps_;
  double up_to_second_ = 0.0;
  double total_second_ = 0.0;
};

}  // namespace ohmwright::cycles
