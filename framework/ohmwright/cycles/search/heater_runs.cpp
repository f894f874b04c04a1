#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/search/heater_runs.hpp>
#include <ohmwright/cycles/search/short_heater_runs.hpp>
#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

HeaterRuns::HeaterRuns(const Window& window, const std::vector<double>& load, const double& least_load,
                       const HeaterEdges& edges)
    : window_(window),
      load_(load),
      least_load_(least_load),
      edges_(edges),
      cooling_load_(time_quantile(load, window.width, 0.95)) {
  for (const double one : load_) {
    sum_.push_back(sum_.back() + one);
    square_.push_back(square_.back() + one * one);
  }
}

HeaterRun HeaterRuns::describe(const Run& run) const {
  HeaterRun described{run};
  std::size_t begin = run.begin;
  std::size_t end = run.end;
  if (end - begin >= 4) {
    ++begin;
    --end;
  }
  const auto count = static_cast<double>(end - begin);
  described.load = sum(begin, end) / count;
  const double square = (square_[end] - square_[begin]) / count - described.load * described.load;
  described.spread = std::sqrt(std::max(square, 0.0)) / described.load;
  if (described.spread > even_spread && end - begin > 2) take_level_while_on(begin, end, described);
  // Rows that are far apart hold the heater in part: of so few the greatest is most its own.
  const std::size_t few = window_.spacing_second > coarse_spacing_second ? 3 : 2;
  if (end - begin <= few)
    for (std::size_t i = run.begin; i < run.end; ++i) described.load = std::max(described.load, load_[i]);
  described.drip_seen = edges_.drip_follows(run, described.load);
  described.drip_may_follow = described.drip_seen || drip_may_follow(run);
  described.rides_on_cooling = !described.drip_seen && rides_on_cooling(described);
  described.pulls_down = !described.drip_seen && pulls_down(described);
  return described;
}

/// A heater that pauses now and then has the level that it draws in between, and that may be even.
void HeaterRuns::take_level_while_on(std::size_t begin, std::size_t end, HeaterRun& run) const {
  double most = 0.0;
  for (std::size_t i = begin; i < end; ++i) most = std::max(most, load_[i]);
  double sum = 0.0;
  double square = 0.0;
  double count = 0.0;
  for (std::size_t i = begin; i < end; ++i) {
    if (load_[i] < 0.5 * most) continue;
    sum += load_[i];
    square += load_[i] * load_[i];
    count += 1.0;
  }
  // On for the most part: else it is something short with something else beside it.
  if (2.0 * count <= static_cast<double>(end - begin)) return;
  run.load = sum / count;
  run.spread = std::sqrt(std::max(square / count - run.load * run.load, 0.0)) / run.load;
}

/// Rows that are far apart show a drip time in parts: one of the two behind the run holds less than cooling draws.
bool HeaterRuns::drip_may_follow(const Run& run) const {
  constexpr double less = 0.7;
  if (window_.spacing_second <= coarse_spacing_second || run.end + 2 > load_.size()) return false;
  return std::min(window_.load[run.end], window_.load[run.end + 1]) < less * cooling_load_;
}

/// What begins after a rest, at once or as it speeds up, and is followed by a load that is hardly lower and goes on: a
/// compressor on a warm coil. A heater stops at once, and what cools behind it draws less and waits for the drip time.
bool HeaterRuns::pulls_down(const HeaterRun& one) const {
  constexpr double rest_second = 600.0;
  constexpr double speeding_up_second = 900.0;
  constexpr double hardly_higher = 1.05;
  constexpr double above_standing = 0.15;
  constexpr double hardly_lower = 0.85;
  constexpr std::size_t rows_behind = 3;
  const Run& run = one.run;
  if (run.is_cut || window_.spacing_second > coarse_spacing_second || run.begin < 2 ||
      run.end + rows_behind > load_.size())
    return false;
  const double standing = least_load_ + above_standing * (one.load - least_load_);
  // The row in which it starts may be a mean of both.
  std::size_t begin = run.begin - 1;
  while (begin > 0 && window_.load[begin - 1] > standing &&
         window_.load[begin - 1] < hardly_higher * window_.load[begin] &&
         run.start_second - window_.start[begin - 1] < speeding_up_second)
    --begin;
  const double starts_second = window_.start[begin];
  for (std::size_t i = begin; i > 0 && starts_second - window_.start[i - 1] < rest_second; --i)
    if (window_.load[i - 1] > standing) return false;
  for (std::size_t i = run.end; i < run.end + rows_behind; ++i)
    if (window_.load[i] < hardly_lower * window_.load[i - 1]) return false;
  return true;
}

/// Something short while the compressor draws before it and after it: an ice maker's heater beside it.
bool HeaterRuns::rides_on_cooling(const HeaterRun& one) const {
  constexpr double shortest_second = 480.0;  // of a defrost (common practice, no source)
  constexpr double above_standing = 0.15;
  const Run& run = one.run;
  if (run.is_cut || run.duration_second() >= shortest_second || run.begin < 2 || run.end + 2 > load_.size() ||
      window_.spacing_second > coarse_spacing_second)
    return false;
  const double standing = least_load_ + above_standing * (one.load - least_load_);
  return window_.load[run.begin - 2] > standing && window_.load[run.end + 1] > standing;
}

}  // namespace ohmwright::cycles
