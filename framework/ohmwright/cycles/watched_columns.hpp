#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include <ohmwright/cycles/log_finding.hpp>
#include <ohmwright/cycles/log_row.hpp>

namespace ohmwright::cycles {

/// Changes of a temperature that no coil and no air makes: more than 0.3 K/s over 8 K, as often as it may not be a
/// probe that somebody moved (common practice, no source).
class QuickChanges {
 public:
  void take(double second, double kelvin) {
    const double passed = second - last_second_;
    const double change = kelvin - last_kelvin_;
    constexpr double least_kelvin = 8.0;
    constexpr double kelvin_per_second = 0.3;
    if (change > least_kelvin && change > kelvin_per_second * passed) {
      ++count_;
      if (change > kelvin_) {
        kelvin_ = change;
        second_ = passed;
      }
    }
    last_second_ = second;
    last_kelvin_ = kelvin;
  }
  void tell(std::vector<LogFinding>& findings) const {
    constexpr int chance_changes = 3;
    if (count_ <= chance_changes) return;
    findings.push_back({"temperature-changes-implausible",
                        {{"kelvin", kelvin_}, {"second", second_}, {"count", static_cast<double>(count_)}},
                        true});
  }

 private:
  double last_second_ = 0.0;
  double last_kelvin_ = LogRow::none;
  double kelvin_ = 0.0;
  double second_ = 0.0;
  int count_ = 0;
};

/// How often the coil warms past the melting point, whatever warms it.
class Thaws {
 public:
  void take(double kelvin) {
    constexpr double clear_of_it_kelvin = 1.0;
    if (kelvin < melting_point_kelvin - clear_of_it_kelvin) is_cold_ = true;
    if (!is_cold_ || kelvin < melting_point_kelvin + clear_of_it_kelvin) return;
    is_cold_ = false;
    ++count_;
  }
  std::uint64_t count() const { return count_; }

 private:
  bool is_cold_ = false;
  std::uint64_t count_ = 0;
};

/// Whether a column moves at all, and for how long it did not.
class Moves {
 public:
  void take(double value, double width_second) {
    has_moved_ = has_moved_ || (count_++ > 0 && value != last_);
    same_second_ = value == last_ ? same_second_ + width_second : width_second;
    longest_same_second_ = std::max(longest_same_second_, same_second_);
    last_ = value;
  }
  bool has_moved() const { return has_moved_; }
  double longest_same_second() const { return longest_same_second_; }
  /// The value that it had last.
  double last() const { return last_; }

 private:
  std::uint64_t count_ = 0;
  double last_ = LogRow::none;
  double same_second_ = 0.0;
  double longest_same_second_ = 0.0;
  bool has_moved_ = false;
};

}  // namespace ohmwright::cycles
