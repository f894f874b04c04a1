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

/// A value that never moved for so long is no reading: all that cools and defrosts moves (common practice, no source)
/// [s].
inline constexpr double longest_rest_second = 12.0 * 3600.0;

/// A time in which a column stood at one value.
struct StandingTime {
  double start_second = 0.0;
  double end_second = 0.0;
};

/// Whether a column moves at all, and when it did not.
class Moves {
 public:
  void take(double value, double start_second, double width_second) {
    has_moved_ = has_moved_ || (count_++ > 0 && value != last_);
    if (value != last_) same_since_second_ = start_second;
    same_second_ = value == last_ ? same_second_ + width_second : width_second;
    longest_same_second_ = std::max(longest_same_second_, same_second_);
    last_ = value;
    if (same_second_ >= longest_rest_second) stand_from(same_since_second_, start_second + width_second);
  }
  bool has_moved() const { return has_moved_; }
  double longest_same_second() const { return longest_same_second_; }
  /// The value that it had last.
  double last() const { return last_; }
  /// Whether it stood for longer than any reading at some time between the two.
  bool stood_within(double from_second, double to_second) const {
    return std::any_of(standing_.begin(), standing_.end(), [&](const StandingTime& one) {
      return one.end_second > from_second && one.start_second < to_second;
    });
  }

 private:
  void stand_from(double start_second, double end_second) {
    if (standing_.empty() || standing_.back().start_second != start_second) standing_.push_back({start_second, 0.0});
    standing_.back().end_second = end_second;
  }

  std::vector<StandingTime> standing_;  ///< each of half a day and more: few, however long the log is
  std::uint64_t count_ = 0;
  double last_ = LogRow::none;
  double same_since_second_ = 0.0;
  double same_second_ = 0.0;
  double longest_same_second_ = 0.0;
  bool has_moved_ = false;
};

}  // namespace ohmwright::cycles
