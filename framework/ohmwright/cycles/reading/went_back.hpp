#pragma once

#include <algorithm>
#include <cstdint>

namespace ohmwright::cycles {

/// The longest run of rows, one after the other, that all lie before a row that came earlier: rows copied in twice, or
/// what follows when somebody sets the clock back.
class WentBack {
 public:
  /// A row that precedes, by so many seconds; rows were `step_second` apart.
  void take(std::uint64_t line, double back_second, double step_second) {
    if (rows_++ == 0) {
      if (back_second > half_day_second - longest_step_second && back_second < half_day_second) {
        if (half_days_++ == 0) half_day_line_ = line;
        half_day_step_second_ = step_second;
      }
      first_line_ = line;
      second_ = 0.0;
    }
    second_ = std::max(second_, back_second);
    if (rows_ < longest_rows_) return;
    longest_rows_ = rows_;
    longest_line_ = first_line_;
    longest_second_ = second_;
  }
  /// A row that follows.
  void end() { rows_ = 0; }

  std::uint64_t rows() const { return longest_rows_; }
  std::uint64_t line() const { return longest_line_; }  ///< where it begins
  double second() const { return longest_second_; }     ///< by how much its time went back [s]

  /// How often it went back by twelve hours less a row's interval, as from 12:59 to 1:00 on a dial.
  std::uint64_t half_days() const { return half_days_; }
  std::uint64_t half_day_line() const { return half_day_line_; }         ///< of the first
  double half_day_step_second() const { return half_day_step_second_; }  ///< interval of the rows there [s]

 private:
  static constexpr double half_day_second = 12.0 * 3600.0;
  static constexpr double longest_step_second = 3600.0;  ///< of rows that show each hour

  std::uint64_t half_days_ = 0;
  std::uint64_t half_day_line_ = 0;
  double half_day_step_second_ = 0.0;
  std::uint64_t rows_ = 0;
  std::uint64_t first_line_ = 0;
  double second_ = 0.0;
  std::uint64_t longest_rows_ = 0;
  std::uint64_t longest_line_ = 0;
  double longest_second_ = 0.0;
};

}  // namespace ohmwright::cycles
