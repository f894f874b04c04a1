#include <cstddef>
#include <optional>

#include <ohmwright/cycles/reading/row_order.hpp>
#include <ohmwright/cycles/reading/time_reader.hpp>

namespace ohmwright::cycles {

bool newest_comes_first(const LogDialect& dialect, const HeadTable& table) {
  constexpr std::size_t fewest_steps = 3;
  constexpr std::size_t forwards_at_most = 10;  ///< of as many backwards, one may go forwards: a clock, a slip
  const TimeWriting writing = dialect.time.writing;
  if (!dialect.time_column || writing == TimeWriting::clock || writing == TimeWriting::row_count) return false;
  TimeReader reader(dialect.time);
  std::optional<double> before;
  std::size_t forwards = 0;
  std::size_t backwards = 0;
  for (const std::vector<std::string>& row : table.rows) {
    if (*dialect.time_column >= row.size() || dialect.clock_column.value_or(0) >= row.size()) continue;
    const std::optional<double> now = dialect.clock_column
                                          ? reader.read(row[*dialect.time_column], row[*dialect.clock_column])
                                          : reader.read(row[*dialect.time_column]);
    if (now && before && *now > *before) ++forwards;
    if (now && before && *now < *before) ++backwards;
    if (now) before = now;
  }
  return backwards >= fewest_steps && backwards > forwards_at_most * forwards;
}

}  // namespace ohmwright::cycles
