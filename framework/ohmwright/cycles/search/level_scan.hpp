#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

/// A stretch of samples [`begin`, `end`) above a level.
struct Run {
  std::size_t begin = 0;
  std::size_t end = 0;
  double start_second = 0.0;
  double end_second = 0.0;
  bool is_cut = false;  ///< by a gap or an end of the window
  double duration_second() const { return end_second - start_second; }
};

/// A signal in steps of level, so that its runs above any of some ten levels are found without looking at each sample.
class LevelScan {
 public:
  /// `levels` rise. What lies above a level and is parted by less than `bridged_second` is one run.
  LevelScan(const Window& window, const std::vector<double>& signal, std::vector<double> levels, double bridged_second);

  const std::vector<double>& levels() const { return levels_; }
  /// Runs above level `j`; stops after more than `most`.
  std::vector<Run> runs_above(std::size_t j, std::size_t most) const;
  /// Value below which `share` of the time lies that is in none of the runs (nor in the samples beside them).
  double quantile_outside(const std::vector<Run>& runs, double share) const;

 private:
  const Window& window_;
  std::vector<double> levels_;
  std::vector<std::uint8_t> step_;  ///< a sample's level: how many of `levels` it reaches
  struct Piece {
    std::size_t begin = 0;
    std::uint8_t step = 0;
    bool after_gap = false;
  };
  std::vector<Piece> pieces_;
  std::vector<double> time_;  ///< at each step
  double bridged_second_;
};

/// The signal without what stands out for less than `second` (morphological opening), not across gaps.
std::vector<double> opened(const Window& window, const std::vector<double>& signal, double second);

}  // namespace ohmwright::cycles
