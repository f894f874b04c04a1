#include <algorithm>

#include <ohmwright/cycles/search/level_scan.hpp>

namespace ohmwright::cycles {

namespace {

/// Least (or greatest) of each `count` neighbours from a sample on, within [begin, end); shorter at the end.
template <class Better>
void run_extremes(const double* values, double* result, std::size_t size, std::size_t count, Better better) {
  std::vector<std::size_t> queue(size);
  std::size_t head = 0;
  std::size_t tail = 0;
  for (std::size_t i = size; i-- > 0;) {
    while (tail > head && !better(values[queue[tail - 1]], values[i])) --tail;
    queue[tail++] = i;
    while (queue[head] >= i + count) ++head;
    result[i] = values[queue[head]];
  }
}

}  // namespace

std::vector<double> opened(const Window& window, const std::vector<double>& signal, double second) {
  const auto count = static_cast<std::size_t>(second / window.spacing_second + 0.5);
  if (count < 2) return signal;
  std::vector<double> least(signal.size());
  std::vector<double> result(signal.size());
  std::size_t begin = 0;
  for (std::size_t i = 0; i < signal.size(); ++i) {
    if (i + 1 != signal.size() && window.gap_after[i] == 0) continue;
    const std::size_t size = i + 1 - begin;
    run_extremes(signal.data() + begin, least.data() + begin, size, count, [](double a, double b) { return a < b; });
    // least[k] covers [k, k + count); the opening at k is the greatest of those that cover k: k - count + 1 … k.
    std::vector<double> backwards(least.begin() + static_cast<std::ptrdiff_t>(begin),
                                  least.begin() + static_cast<std::ptrdiff_t>(i) + 1);
    std::reverse(backwards.begin(), backwards.end());
    std::vector<double> greatest(size);
    run_extremes(backwards.data(), greatest.data(), size, count, [](double a, double b) { return a > b; });
    for (std::size_t k = 0; k < size; ++k) result[begin + k] = greatest[size - 1 - k];
    begin = i + 1;
  }
  return result;
}

LevelScan::LevelScan(const Window& window, const std::vector<double>& signal, std::vector<double> levels,
                     double bridged_second)
    : window_(window), levels_(std::move(levels)), time_(levels_.size() + 1), bridged_second_(bridged_second) {
  step_.resize(signal.size());
  for (std::size_t i = 0; i < signal.size(); ++i) {
    std::uint8_t step = i > 0 ? step_[i - 1] : std::uint8_t{0};  // neighbours are mostly on one step
    while (step < levels_.size() && signal[i] >= levels_[step]) ++step;
    while (step > 0 && signal[i] < levels_[step - 1U]) --step;
    step_[i] = step;
    time_[step] += window.width[i];
    const bool after_gap = i > 0 && window.gap_after[i - 1] != 0;
    if (i == 0 || after_gap || step != step_[i - 1]) pieces_.push_back({i, step, after_gap});
  }
}

std::vector<Run> LevelScan::runs_above(std::size_t j, std::size_t most) const {
  std::vector<Run> runs;
  bool inside = false;
  const auto close = [&](std::size_t end, bool is_cut) {
    Run& run = runs.back();
    run.end = end;
    run.end_second = window_.end_of(end - 1);
    run.is_cut = run.is_cut || is_cut;
    inside = false;
  };
  for (std::size_t k = 0; k < pieces_.size(); ++k) {
    const Piece& piece = pieces_[k];
    const bool above = piece.step > j;
    const double start = window_.start[piece.begin];
    // Missing minutes within a run do not end it; a longer gap does.
    const bool gap = piece.after_gap && start - window_.end_of(piece.begin - 1) > bridged_second_;
    if (inside && gap) close(piece.begin, true);
    if (inside && !above) close(piece.begin, piece.after_gap);
    if (inside || !above) continue;
    const bool near = !runs.empty() && !gap && start - runs.back().end_second < bridged_second_;
    if (!near) {
      if (runs.size() > most) return runs;
      runs.push_back({piece.begin, piece.begin, start, start, piece.begin == 0 || gap});
    }
    inside = true;
  }
  if (inside) close(window_.size(), true);
  return runs;
}

double LevelScan::quantile_outside(const std::vector<Run>& runs, double share) const {
  std::vector<double> time = time_;
  for (const Run& run : runs) {
    const std::size_t begin = run.begin > 2 ? run.begin - 2 : 0;
    const std::size_t end = std::min(run.end + 2, window_.size());
    for (std::size_t i = begin; i < end; ++i) time[step_[i]] -= window_.width[i];
  }
  double whole = 0.0;
  for (const double one : time) whole += std::max(one, 0.0);
  double below = 0.0;
  for (std::size_t step = 0; step < time.size(); ++step) {
    below += std::max(time[step], 0.0);
    // The upper end of the step: what is outside lies below it.
    if (below >= share * whole) return step < levels_.size() ? levels_[step] : levels_.back();
  }
  return levels_.back();
}

}  // namespace ohmwright::cycles
