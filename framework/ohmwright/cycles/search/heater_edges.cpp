#include <algorithm>
#include <cstddef>
#include <utility>

#include <ohmwright/cycles/search/heater_edges.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double latest_drip_second = 30.0;  ///< after the run: what is left of an edge's sample
constexpr double shortest_drip_second = 100.0;

}  // namespace

bool HeaterEdges::drip_follows(const Run& run, double load) const {
  const double low = least_load_ + 0.08 * (load - least_load_);
  double seen = 0.0;
  for (std::size_t i = run.end; i < load_.size(); ++i) {
    if (window_.load[i] <= low) {
      seen += window_.width[i];
      if (seen >= shortest_drip_second) return true;
    } else if (window_.start[i] - run.end_second > std::max(latest_drip_second, 0.6 * window_.spacing_second)) {
      return false;
    }
  }
  return false;
}

void HeaterEdges::trim(HeaterRun& one) const {
  std::vector<double> inside(window_.load.begin() + static_cast<std::ptrdiff_t>(one.run.begin),
                             window_.load.begin() + static_cast<std::ptrdiff_t>(one.run.end));
  const double level = median_of(std::move(inside));
  const double least = 0.88 * level;
  std::size_t begin = one.run.begin;
  std::size_t end = one.run.end;
  while (begin < end && load_[begin] < least) ++begin;
  while (end > begin && load_[end - 1] < least) --end;
  if (end <= begin || static_cast<double>(end - begin) < 0.55 * static_cast<double>(one.run.end - one.run.begin))
    return;
  one.run.begin = begin;
  one.run.end = end;
  one.run.start_second = window_.start[begin];
  one.run.end_second = window_.end_of(end - 1);
  one.load = level;
}

void HeaterEdges::take_lower_step(double cooling_load, HeaterRun& one) const {
  constexpr double clear_of_cooling = 1.15;
  constexpr double shortest_step_second = 120.0;
  constexpr double longest_step_second = 2700.0;
  constexpr double least_of_first = 0.35;
  const double least = std::max(clear_of_cooling * cooling_load, least_of_first * one.load);
  const std::size_t begin = one.run.end;
  std::size_t end = begin;
  double most = 0.0;
  double lowest = 1e300;
  while (end < load_.size() && load_[end] >= least && window_.gap_after[end - 1] == 0) {
    most = std::max(most, load_[end]);
    lowest = std::min(lowest, load_[end++]);
  }
  if (end == begin || one.run.is_cut || most - lowest > 2.0 * even_spread * most) return;
  Run whole = one.run;
  whole.end = end;
  whole.end_second = window_.end_of(end - 1);
  const double step_second = whole.end_second - one.run.end_second;
  if (step_second < shortest_step_second || step_second > longest_step_second || !drip_follows(whole, one.load)) return;
  one.run = whole;
  one.drip_seen = true;
}

}  // namespace ohmwright::cycles
