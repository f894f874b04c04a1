#include <cmath>
#include <cstddef>

#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/verdicts/extra_starts.hpp>

namespace ohmwright::cycles {

bool keep_a_beat_beside_extra_starts(const std::vector<BothCounts>& intervals, double edge_second) {
  constexpr std::size_t fewest_whole_beats = 4;  // fewer may be chance (common practice, no source)
  constexpr double edges = 6.0;                  // a row for each end, and one for a board that looks only now and then
  std::vector<double> seconds;
  for (const BothCounts& one : intervals) seconds.push_back(one.clock_second);
  const double beat = median_of(seconds);
  const double tolerance = edges * edge_second;
  std::size_t beats = 0;
  std::size_t parts = 0;
  double filled = 0.0;  // of a beat that something was started in
  for (const double second : seconds) {
    filled += second;
    if (std::abs(filled - beat) <= tolerance) {
      if (second == filled) ++beats;
      filled = 0.0;
    } else if (filled > beat) {
      return false;
    } else {
      ++parts;
    }
  }
  return parts > 0 && beats >= fewest_whole_beats && beats > 2 * parts;
}

}  // namespace ohmwright::cycles
