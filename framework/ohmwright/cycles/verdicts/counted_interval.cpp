#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/verdicts/counted_interval.hpp>

namespace ohmwright::cycles {

namespace {

/// Of fewer intervals it may be chance that they are alike.
constexpr std::size_t fewest_intervals = 2;
/// Spread of a count that is not what the control goes by (common practice, no source).
constexpr double clearly_spread = 0.02;
constexpr double times_as_spread = 3.0;

/// How far from the middle one the values usually lie, less what their edges explain, as a share of it. The middle of
/// the distances leaves out the odd one, which somebody started by hand.
double spread_of(const std::vector<double>& values, double edge_second) {
  const double middle = median_of(values);
  std::vector<double> apart;
  for (const double value : values) apart.push_back(std::abs(value - middle));
  return middle > 0.0 ? std::max(0.0, median_of(std::move(apart)) - 2.0 * edge_second) / middle : 0.0;
}

}  // namespace

ShownCount shown_count(const std::vector<BothCounts>& intervals, double edge_second, double running_edge_second) {
  std::vector<double> by_clock;
  std::vector<double> by_running;
  for (const BothCounts& one : intervals) {
    if (!one.running_second) continue;
    by_clock.push_back(one.clock_second);
    by_running.push_back(*one.running_second);
  }
  if (by_clock.size() < fewest_intervals) return ShownCount::untold;
  const double clock = spread_of(by_clock, edge_second);
  const double running = spread_of(by_running, running_edge_second);
  if (std::max(clock, running) < clearly_spread) return ShownCount::untold;
  if (times_as_spread * clock <= running) return ShownCount::clock;
  if (times_as_spread * running <= clock) return ShownCount::running;
  return ShownCount::neither;
}

}  // namespace ohmwright::cycles
