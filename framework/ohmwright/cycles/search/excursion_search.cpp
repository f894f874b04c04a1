#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/search/excursion_search.hpp>
#include <ohmwright/cycles/search/run_scores.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double smoothing_second = 60.0;
constexpr double excursion_bridged_second = 300.0;
constexpr std::size_t level_count = 60;
constexpr double longest_rise_second = 5400.0;
constexpr double least_excursion_contrast = 0.25;

class ExcursionFinder {
 public:
  ExcursionFinder(const Window& window, const std::vector<double>& kelvin, SensorPlace place)
      : window_(window),
        place_(place),
        kelvin_(smoothed(window, kelvin, smoothing_second)),
        middle_(time_quantile(kelvin_, window.width, 0.5)),
        low_(time_quantile(kelvin_, window.width, 0.05)),
        noise_(noise_of(kelvin_)) {
    const double most = *std::max_element(kelvin_.begin(), kelvin_.end());
    // Between the middle and the top, closer where it is lower: the first steps are small beside the cycles.
    for (std::size_t j = 0; j < level_count && most - middle_ > 0.5; ++j)
      levels_.push_back(middle_ + (most - middle_) * (static_cast<double>(j) + 0.5) / level_count);
  }

  ExcursionSearch best() const {
    ExcursionSearch best;
    if (levels_.empty()) return best;
    const LevelScan scan(window_, kelvin_, levels_, excursion_bridged_second);
    const std::size_t most_runs = runs_in(window_, 3000.0) + 8;
    double best_sum = 0.0;
    std::vector<ExcursionSearch> equals;
    for (std::size_t j = 0; j < levels_.size(); ++j) {
      const std::vector<Run> runs = scan.runs_above(j, most_runs);
      if (runs.empty() || runs.size() > most_runs) continue;
      // Doors may come often; slow rises that come as often are cycles.
      std::vector<double> starts;
      for (const Run& run : runs)
        if (run.duration_second() > quick_second()) starts.push_back(run.start_second);
      if (come_too_often(starts)) continue;
      ExcursionSearch tried{{}, levels_[j], scan.quantile_outside(runs, 0.98)};
      const double sum = judge(tried, runs);
      if (sum > best_sum + 0.02) {
        best_sum = sum;
        equals.clear();
      }
      if (sum > best_sum - 0.02 && !tried.excursions.empty()) equals.push_back(std::move(tried));
    }
    if (!equals.empty()) best = equals[equals.size() / 2];
    return best;
  }

 private:
  Excursion describe(const Run& run) const {
    Excursion found;
    const auto peak = std::max_element(kelvin_.begin() + static_cast<std::ptrdiff_t>(run.begin),
                                       kelvin_.begin() + static_cast<std::ptrdiff_t>(run.end));
    found.peak = static_cast<std::size_t>(peak - kelvin_.begin());
    found.peak_kelvin = *peak;
    found.end = run.end;
    found.is_cut = run.is_cut;
    // Down the slope to the least before it, until it rises again for good.
    std::size_t least = run.begin;
    for (std::size_t i = run.begin; i-- > 0;) {
      if (window_.gap_after[i] != 0 || window_.start[run.begin] - window_.start[i] > longest_rise_second) break;
      if (kelvin_[i] < kelvin_[least]) least = i;
      if (kelvin_[i] > kelvin_[least] + std::max(4.0 * noise_, 0.4)) break;
    }
    set_onset(least, run.begin, found);
    set_heat_end(run.end, found);
    return found;
  }

  /// Heating lasts to the last row that is as warm as the warmest, as far as noise tells them apart. Rows that are far
  /// apart step by far more than noise, so no more than a small part of the rise is taken for it.
  void set_heat_end(std::size_t end, Excursion& found) const {
    constexpr double part_of_rise = 0.1;
    const double noise = std::min(3.0 * noise_, part_of_rise * (found.peak_kelvin - found.onset_kelvin));
    found.heat_end = found.peak;
    for (std::size_t i = found.peak; i < end; ++i)
      if (kelvin_[i] > found.peak_kelvin - std::max(noise, 0.25)) found.heat_end = i;
  }

  /// The compressor stands for a while before the heater heats: the rise begins where its slope becomes a good part of
  /// the steepest.
  void set_onset(std::size_t least, std::size_t top, Excursion& found) const {
    const auto reach = static_cast<std::size_t>(std::max(1.0, std::round(60.0 / window_.spacing_second)));
    const auto slope = [&](std::size_t i) {
      const std::size_t to = std::min(i + reach, window_.size() - 1);
      return to == i ? 0.0 : (kelvin_[to] - kelvin_[i]) / (window_.start[to] - window_.start[i]);
    };
    double steepest = 0.0;
    std::size_t steepest_at = least;
    for (std::size_t i = least; i < std::max(top, least + 1); ++i)
      if (slope(i) > steepest) {
        steepest = slope(i);
        steepest_at = i;
      }
    std::size_t onset = steepest_at;
    while (onset > least && slope(onset - 1) > 0.3 * steepest) --onset;
    found.onset = onset;
    found.onset_kelvin = kelvin_[onset];
    found.onset_second = window_.start[onset];
    if (steepest <= 0.0) return;
    const std::size_t to = std::min(steepest_at + reach, window_.size() - 1);
    const double middle_second = 0.5 * (window_.start[steepest_at] + window_.start[to]);
    const double middle_kelvin = 0.5 * (kelvin_[steepest_at] + kelvin_[to]);
    const double drawn_back = middle_second - (middle_kelvin - kelvin_[onset]) / steepest;
    found.onset_second =
        std::clamp(drawn_back, window_.start[onset], window_.start[steepest_at] + window_.spacing_second);
  }

  double judge(ExcursionSearch& tried, const std::vector<Run>& runs) const {
    const double range = std::max({tried.outside_kelvin - low_, 4.0 * noise_, 1.0});
    std::vector<Excursion> slow;
    std::vector<double> starts;
    for (const Run& run : runs) {
      Excursion found = describe(run);
      const double rise_second = window_.start[found.peak] - window_.start[found.onset];
      const double contrast = (found.peak_kelvin - tried.outside_kelvin) / range;
      const bool melts = found.peak_kelvin > melting_point_kelvin - 1.0 && middle_ < melting_point_kelvin - 2.0;
      const bool misses_melting = place_ == SensorPlace::coil && !melts;
      double score = std::clamp(contrast / 0.5, -1.0, misses_melting ? 2.5 : 1.5);
      score += shape_score(found, run, rise_second);
      if (place_ == SensorPlace::coil) score += melts ? 0.8 : -1.9;
      found.score = contrast < least_excursion_contrast ? std::min(score, 0.0) : score;
      if (rise_second < quick_second() && !run.is_cut) continue;  // a door, told elsewhere
      // Of what a gap or an end cut, only a good part that reached the melting point counts.
      if (run.is_cut && (misses_melting || rise_second < 120.0)) continue;
      slow.push_back(found);
      starts.push_back(found.onset_second);
    }
    double sum = 0.0;
    for (std::size_t i = 0; i < slow.size(); ++i) {
      slow[i].score += spacing_score(nearest(starts, i));
      sum += std::clamp(slow[i].score - 1.2, -1.0, 1.5);
      if (slow[i].score >= 1.0) tried.excursions.push_back(slow[i]);
    }
    return sum;
  }

  /// Less is a door's rise, as far as the rows' spacing can tell.
  double quick_second() const { return std::max(200.0, 1.2 * window_.spacing_second); }

  double shape_score(const Excursion& found, const Run& run, double rise_second) const {
    double score = 0.0;
    if (!run.is_cut) score += rise_second >= 300.0 ? 0.5 : (rise_second >= 200.0 ? 0.0 : -1.0);
    if (rise_second > 4800.0) score -= 0.8;
    if (run.duration_second() > 4.0 * 3600.0) score -= 1.5;
    if (found.peak_kelvin - found.onset_kelvin < 3.0 * noise_) score -= 1.0;
    return score;
  }

  const Window& window_;
  SensorPlace place_;
  std::vector<double> kelvin_;
  double middle_;
  double low_;
  double noise_;
  std::vector<double> levels_;
};

}  // namespace

ExcursionSearch search_excursions(const Window& window, const std::vector<double>& kelvin, SensorPlace place) {
  return ExcursionFinder(window, kelvin, place).best();
}

}  // namespace ohmwright::cycles
