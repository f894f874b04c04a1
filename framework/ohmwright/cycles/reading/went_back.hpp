#pragma once

#include <algorithm>
#include <cstdint>

namespace ohmwright::cycles {

/// The longest run of rows, one after the other, that all lie before a row that came earlier: rows copied in twice, or
/// what follows when somebody sets the clock back.
class WentBack {
 public:
  /// A row that precedes, by so many seconds.
  void take(std::uint64_t line, double back_second) {
    if (rows_++ == 0) {
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

 private:
  std::uint64_t rows_ = 0;
  std::uint64_t first_line_ = 0;
  double second_ = 0.0;
  std::uint64_t longest_rows_ = 0;
  std::uint64_t longest_line_ = 0;
  double longest_second_ = 0.0;
};

}  // namespace ohmwright::cycles
