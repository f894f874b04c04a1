#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <ohmwright/cycles/search/compressor_search.hpp>

namespace ohmwright::cycles {

namespace {

/// Runs in a temperature, as a zigzag: a turn counts when the temperature has come back from it by the threshold.
class Zigzag {
 public:
  Zigzag(double threshold, std::vector<CompressorRun>& runs) : threshold_(threshold), runs_(runs) {}

  /// Begins anew with the first value, and behind a gap.
  void begin(double second, double kelvin) {
    is_known_ = false;
    low_ = high_ = {second, kelvin};
  }
  void take(double second, double kelvin) {
    if (!is_known_) return find_direction({second, kelvin});
    if (falling_ ? kelvin < extreme_.kelvin : kelvin > extreme_.kelvin) {
      extreme_ = {second, kelvin};
    } else if (std::abs(kelvin - extreme_.kelvin) >= threshold_) {
      if (falling_) runs_.back().end_second = extreme_.second;
      falling_ = !falling_;
      if (falling_) runs_.push_back({extreme_.second, extreme_.second, 0.0F, true, true});
      extreme_ = {second, kelvin};
    }
  }
  /// Where rows end, or a gap begins: a run that goes on is cut.
  void end(double second) {
    if (!is_known_ || !falling_) return;
    runs_.back().end_second = second;
    runs_.back().end_is_seen = false;
  }

 private:
  struct Point {
    double second = 0.0;
    double kelvin = 0.0;
  };

  void find_direction(const Point& now) {
    if (now.kelvin < low_.kelvin) low_ = now;
    if (now.kelvin > high_.kelvin) high_ = now;
    const bool falls = high_.kelvin - now.kelvin >= threshold_;
    if (!falls && now.kelvin - low_.kelvin < threshold_) return;
    is_known_ = true;
    falling_ = falls;
    extreme_ = now;
    if (falls) runs_.push_back({high_.second, high_.second, 0.0F, high_.second > low_.second, true});
  }

  double threshold_;
  std::vector<CompressorRun>& runs_;
  bool is_known_ = false;  ///< whether it falls or rises
  bool falling_ = false;
  Point extreme_;
  Point low_;
  Point high_;
};

}  // namespace

CompressorSearch compressor_by_temperature(const Window& window, const std::vector<double>& kelvin) {
  CompressorSearch search;
  const std::vector<double> smooth = smoothed(window, kelvin, 60.0);
  const double swing = time_quantile(smooth, window.width, 0.9) - time_quantile(smooth, window.width, 0.1);
  const double noise = noise_of(smooth);
  if (5.0 * noise > 0.7 * swing) return search;  // rows too far apart, or steps too coarse, for its cycles
  search.on_threshold = search.off_threshold = std::max({0.35 * swing, 5.0 * noise, 0.05});
  Zigzag zigzag(search.on_threshold, search.runs);
  for (std::size_t i = 0; i < smooth.size(); ++i) {
    const bool after_gap = i > 0 && window.gap_after[i - 1] != 0;
    if (after_gap) zigzag.end(window.end_of(i - 1));
    if (i == 0 || after_gap)
      zigzag.begin(window.start[i], smooth[i]);
    else
      zigzag.take(window.start[i], smooth[i]);
  }
  if (!smooth.empty()) zigzag.end(window.end_of(window.size() - 1));
  search.levels_found = search.runs.size() > 1;
  return search;
}

}  // namespace ohmwright::cycles
