#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

namespace ohmwright::cycles {

/// What can be wrong with a row. Nothing of it ends the reading; all of it is counted, with the first lines of each
/// sort.
enum class LogTrouble : std::uint8_t {
  unreadable_time,    ///< the time cell is no time: the row is not used
  unreadable_value,   ///< a cell is no number: the value is not used
  missing_value,      ///< a cell is empty or says "no value"
  impossible_value,   ///< outside what the quantity can be, or a sensor's error code: not used
  unit_slip,          ///< a value that is its neighbour in another unit (degF for degC, kW for W)
  repeated_time,      ///< the time of the row before; the values are used
  out_of_order,       ///< before the row before: the row is not used
  clock_set_back,     ///< local time was set back by an hour; times from there on are continued
  clock_set_forward,  ///< local time was set forward by an hour; times from there on are continued
  clock_set_ahead,    ///< the logger's clock was set to another date, far ahead: times are continued
  clock_began_anew,   ///< the logger's clock fell back to before the log's first row and runs on from there
  missing_cells,      ///< too few cells: what is there is used
  extra_cells,        ///< more cells than other rows
  open_quote,         ///< a quote that is not closed in its line
  repeated_header,    ///< a header within the log: the line is not used
  line_too_long,      ///< passed over
  cut_last_line,      ///< the last line has no end: it may be cut within a number
};

inline constexpr std::size_t log_trouble_count = 17;

/// "unreadable_time", …
std::string_view name_of(LogTrouble trouble);

/// Count and first lines of one sort of trouble.
struct TroubleCount {
  std::uint64_t count = 0;
  std::vector<std::uint64_t> first_lines;  ///< counted from 1, at most `LogTroubles::most_lines`
};

/// All troubles of a log, in memory that does not grow with it.
class LogTroubles {
 public:
  static constexpr std::size_t most_lines = 10;

  void add(LogTrouble trouble, std::uint64_t line) {
    TroubleCount& one = counts_[static_cast<std::size_t>(trouble)];
    ++one.count;
    if (one.first_lines.size() < most_lines) one.first_lines.push_back(line);
  }
  /// As many rows as `count`, from `first_line` on.
  void add_all(LogTrouble trouble, std::uint64_t first_line, std::uint64_t count) {
    if (count == 0) return;
    add(trouble, first_line);
    counts_[static_cast<std::size_t>(trouble)].count += count - 1;
  }
  const TroubleCount& of(LogTrouble trouble) const { return counts_[static_cast<std::size_t>(trouble)]; }
  std::uint64_t total() const {
    std::uint64_t sum = 0;
    for (const TroubleCount& one : counts_) sum += one.count;
    return sum;
  }

 private:
  std::array<TroubleCount, log_trouble_count> counts_;
};

}  // namespace ohmwright::cycles
