#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include <ohmwright/cycles/search/heater_edges.hpp>
#include <ohmwright/cycles/search/heater_runs.hpp>
#include <ohmwright/cycles/search/heater_search.hpp>
#include <ohmwright/cycles/search/run_scores.hpp>
#include <ohmwright/cycles/search/short_heater_runs.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double opening_second = 90.0;          ///< what stands out for less is an inrush or a lamp
constexpr double heater_bridged_second = 200.0;  ///< a heater that pauses for less is still the same defrost
constexpr double kettle_second = 420.0;          ///< what is far above all else for less heats no coil
constexpr double kettle_contrast = 0.5;
constexpr double shortest_fine_second = 270.0;
constexpr double level_ratio = 1.05;
constexpr std::size_t most_levels = 90;
constexpr double least_heater_contrast = 1.15;
constexpr double clear_of_scatter = 4.0;  ///< standard deviations
/// Share of the time from which on the only level above standby cools, and up to which it heats (common practice, no
/// source: heaters draw for 8 to 40 minutes every 8 hours or less often, compressors for a fifth of the time and more).
constexpr double cooling_share = 0.12;
constexpr double heating_share = 0.08;
constexpr double stands_above = 1.3;  ///< what a start of the compressor draws stays below, as a mean over minutes
constexpr std::array<double, 7> shortest_seconds{100.0, 200.0, 270.0, 330.0, 390.0, 450.0, 540.0};

/// The lowest load that lasts for a part of a drip time: a compressor that never stops rests then alone, for less of
/// the time than any quantile would see.
double lowest_held(const Window& window, const std::vector<double>& load) {
  constexpr double held_second = 120.0;
  std::vector<double> turned;
  for (const double one : load) turned.push_back(-one);
  const std::vector<double> held = opened(window, turned, held_second);
  return held.empty() ? 0.0 : -*std::max_element(held.begin(), held.end());
}

/// The searches that score as well as the best.
class EqualSearches {
 public:
  void take(double sum, HeaterSearch tried) {
    constexpr double as_good = 0.02;
    if (sum > best_sum_ + as_good) {
      best_sum_ = sum;
      equals_.clear();
    }
    if (sum > best_sum_ - as_good && !tried.runs.empty()) equals_.push_back(std::move(tried));
  }
  /// Of thresholds that tell the same, the middle one has most room on both sides.
  HeaterSearch middle() const { return equals_.empty() ? HeaterSearch{} : equals_[equals_.size() / 2]; }

 private:
  double best_sum_ = 0.0;
  std::vector<HeaterSearch> equals_;
};

class HeaterFinder {
 public:
  explicit HeaterFinder(const Window& window)
      : window_(window),
        load_(opened(window, window.load, opening_second)),
        least_load_(lowest_held(window, load_)),
        most_runs_(runs_in(window, 5000.0) + 6),
        edges_(window, load_, least_load_),
        runs_(window, load_, least_load_, edges_) {
    for (const double width : window.width) whole_second_ += width;
    const double most = time_quantile(load_, window.width, 0.9995);
    const double usual_rest = time_quantile(load_, window.width, 0.4);
    // What draws far more for some minutes, as a kettle on the same circuit does, hides no heater below it.
    const double lasting = time_quantile(opened(window, window.load, kettle_second), window.width, 0.9995);
    const double top = lasting < kettle_contrast * most ? lasting : most;
    const double least = std::max({usual_rest, least_load_ * 1.2, top * 0.12});
    rests_often_ = usual_rest < least;
    for (double level = least; level < most && levels_.size() < most_levels; level *= level_ratio)
      levels_.push_back(level);
  }

  HeaterSearch best() {
    if (levels_.empty()) return {};
    const LevelScan scan(window_, load_, levels_, heater_bridged_second);
    const std::vector<Run> lowest = scan.runs_above(0, window_.size());
    EqualSearches equals;
    double one_level_second = 0.0;
    for (std::size_t level = 0; level < levels_.size(); ++level) {
      const std::optional<LevelRuns> above = runs_at(scan, level, lowest);
      if (!above) continue;
      for (HeaterSearch& tried : searches_of(scan, *above)) {
        const double sum = judge(tried);
        if (!may_cool(*above))
          equals.take(sum, std::move(tried));
        else if (!tried.runs.empty())
          one_level_second = std::max(one_level_second, above->only_level_second);
      }
    }
    HeaterSearch best = equals.middle();
    take_those_alike(scan, best);
    settle(best);
    if (best.runs.empty()) {
      best.heats_at_only_level = false;
      best.one_level_second = one_level_second;
      best.too_frequent = count_too_frequent();
    }
    best.short_stand_outs = count_short_stand_outs(best);
    return best;
  }

 private:
  /// The runs above a level, and how long the load is in them where all else is standby.
  struct LevelRuns {
    double threshold = 0.0;
    std::vector<Run> runs;
    double only_level_second = 0.0;
  };

  /// Nothing where there are none, or more than any heater's, or where they are what cools alone.
  std::optional<LevelRuns> runs_at(const LevelScan& scan, std::size_t level, const std::vector<Run>& lowest) const {
    LevelRuns above{levels_[level], scan.runs_above(level, most_runs_), 0.0};
    if (above.runs.empty() || above.runs.size() > most_runs_) return std::nullopt;
    above.only_level_second = time_of_only_level(scan, lowest, above.runs);
    if (above.only_level_second >= cooling_share * whole_second_) return std::nullopt;
    return above;
  }

  bool may_cool(const LevelRuns& above) const { return above.only_level_second > heating_share * whole_second_; }

  /// The shortest lengths that are tried: those that the rows can show, with which the runs do not come too often.
  std::vector<double> lengths_to_try(const std::vector<Run>& runs) const {
    std::vector<double> tried;
    for (const double shortest : shortest_seconds) {
      const bool rows_are_longer = shortest < window_.spacing_second * 0.9 && shortest < coarse_spacing_second;
      if (rows_are_longer && shortest != shortest_seconds.front()) continue;
      if (!come_too_often(starts_of(runs, shortest))) tried.push_back(shortest);
    }
    return tried;
  }

  /// These runs as searches still to be judged, one for each shortest length.
  std::vector<HeaterSearch> searches_of(const LevelScan& scan, const LevelRuns& above) const {
    std::vector<HeaterSearch> searches;
    const std::vector<double> lengths = lengths_to_try(above.runs);
    if (lengths.empty()) return searches;
    HeaterSearch whole;
    for (const Run& run : above.runs) whole.runs.push_back(runs_.describe(run));
    whole.threshold = above.threshold;
    whole.outside_load = scan.quantile_outside(above.runs, 0.98);
    whole.heats_at_only_level = above.only_level_second > 0.0;
    for (const double shortest : lengths) {
      searches.push_back(whole);
      searches.back().shortest_second = shortest;
    }
    return searches;
  }

  static std::vector<double> starts_of(const std::vector<Run>& runs, double shortest_second) {
    std::vector<double> starts;
    for (const Run& run : runs)
      if (run.is_cut || run.duration_second() >= shortest_second) starts.push_back(run.start_second);
    return starts;
  }

  /// The runs at the lowest level that is tried to which these belong: a load that falls while it runs is above a
  /// higher level for a part of its time only.
  static std::vector<Run> whole_runs(const std::vector<Run>& lowest, const std::vector<Run>& runs) {
    std::vector<Run> whole;
    auto next = lowest.begin();
    for (const Run& run : runs) {
      while (next != lowest.end() && next->end <= run.begin) ++next;
      if (next == lowest.end()) break;
      if (next->begin < run.end && (whole.empty() || whole.back().begin != next->begin)) whole.push_back(*next);
    }
    return whole;
  }

  /// How long the load is in these runs, where all else is standby; 0 where something else draws for a good part of the
  /// time, as a compressor does beside a heater. What draws alone is the compressor, however long it runs and stands.
  double time_of_only_level(const LevelScan& scan, const std::vector<Run>& lowest, const std::vector<Run>& runs) const {
    const std::vector<Run> whole = whole_runs(lowest, runs);
    double second = 0.0;
    double sum = 0.0;
    double count = 0.0;
    // By the whole runs: beside what a kettle draws a compressor would be standby.
    for (const Run& run : whole) {
      second += run.duration_second();
      sum += runs_.sum(run.begin, run.end);
      count += static_cast<double>(run.end - run.begin);
    }
    constexpr double near_standby = 0.15;
    const double standby = least_load_ + near_standby * (sum / count - least_load_);
    // The lowest level that is tried stands above standby where a strong heater draws.
    const double rest = rests_often_ ? std::max(standby, levels_.front()) : standby;
    return scan.quantile_outside(whole, 0.9) <= rest ? second : 0.0;
  }

  /// Rows above all that cools, beside the heatings that were found: of a heater, where they are far apart, or of
  /// something else that is short.
  std::size_t count_short_stand_outs(const HeaterSearch& found) const {
    if (window_.spacing_second <= coarse_spacing_second) return 0;
    const double above = stands_above * time_quantile(load_, window_.width, 0.95);
    std::vector<double> starts;
    const auto is_found = [&](std::size_t i) {
      return std::any_of(found.runs.begin(), found.runs.end(),
                         [i](const HeaterRun& one) { return i + 1 >= one.run.begin && i <= one.run.end; });
    };
    for (std::size_t i = 0; i < load_.size(); ++i)
      if (load_[i] >= above && (i == 0 || load_[i - 1] < above) && !is_found(i)) starts.push_back(window_.start[i]);
    return come_too_often(starts) ? 0 : starts.size();
  }

  /// Runs of one level well above what cools, each with a drip time behind it, that come oftener than any control
  /// defrosts. An ice maker's heater comes beside the compressor as often as beside none, and no drip time follows it.
  std::size_t count_too_frequent() const {
    constexpr double clearly_above = 1.5;
    constexpr double nearly_all = 0.8;
    constexpr std::size_t fewest = 6;
    const double cooling = time_quantile(load_, window_.width, 0.85);
    const double level = clearly_above * cooling;
    const LevelScan scan(window_, load_, {level}, heater_bridged_second);
    std::vector<double> starts;
    std::vector<double> loads;
    std::size_t drips = 0;
    for (const Run& run : scan.runs_above(0, window_.size())) {
      if (run.is_cut || run.duration_second() < shortest_seconds.front()) continue;
      const HeaterRun described = runs_.describe(run);
      starts.push_back(run.start_second);
      loads.push_back(described.load);
      if (described.drip_may_follow) ++drips;
    }
    if (starts.size() < fewest || !come_too_often(starts)) return 0;
    const double usual = median_of(loads);
    // A compressor that runs for less than that stands above standby alone: something else has to cool beside it.
    constexpr double least_of_cooling = 0.08;
    if (cooling < least_load_ + least_of_cooling * (usual - least_load_)) return 0;
    const auto alike = std::count_if(loads.begin(), loads.end(),
                                     [&](double one) { return std::abs(one - usual) <= like_load * usual; });
    const double enough = nearly_all * static_cast<double>(starts.size());
    return static_cast<double>(alike) >= enough && static_cast<double>(drips) >= enough ? starts.size() : 0;
  }

  /// Once some runs were told to be the heater's, others of that level and about that length, with a drip time behind
  /// them and far from the next, are too: a limit that some of them just miss must not part them.
  void take_those_alike(const LevelScan& scan, HeaterSearch& found) const {
    const auto level = std::find(levels_.begin(), levels_.end(), found.threshold);
    if (found.runs.empty() || level == levels_.end()) return;
    const UsualRun usual = usual_run_of(found);
    const double usual_load = usual.load;
    const double usual_second = usual.second;
    for (const Run& run : scan.runs_above(static_cast<std::size_t>(level - levels_.begin()), most_runs_)) {
      const double second = run.duration_second();
      if (run.is_cut || second < found.shortest_second || second < 0.5 * usual_second || second > 2.0 * usual_second)
        continue;
      const HeaterRun described = runs_.describe(run);
      if (!described.drip_may_follow || std::abs(described.load - usual_load) > like_load * usual_load) continue;
      const bool is_far = std::all_of(found.runs.begin(), found.runs.end(), [&](const HeaterRun& one) {
        return spacing_score(std::abs(one.run.start_second - run.start_second)) >= 0.0;
      });
      if (is_far) found.runs.push_back(described);
    }
    std::sort(found.runs.begin(), found.runs.end(),
              [](const HeaterRun& a, const HeaterRun& b) { return a.run.start_second < b.run.start_second; });
  }

  /// What an end of the log or a gap cut counts only where it is like the whole ones; what stands before or after a
  /// heater at a lower level is something else.
  void settle(HeaterSearch& found) const {
    std::vector<double> loads;
    for (const HeaterRun& one : found.runs)
      if (!one.run.is_cut) loads.push_back(one.load);
    const double usual = median_of(std::move(loads));
    std::erase_if(found.runs, [&](const HeaterRun& one) {
      if (!one.run.is_cut) return false;
      const bool like_others = usual <= 0.0 || std::abs(one.load - usual) < like_load * usual;
      return !like_others || one.run.end - one.run.begin < 2 || one.run.duration_second() < 240.0;
    });
    drop_single_rows(window_.spacing_second, found);
    drop_weak_and_short(found);
    if (window_.spacing_second > 60.0) return;
    const double cooling_load = time_quantile(load_, window_.width, 0.95);
    for (HeaterRun& one : found.runs) {
      edges_.trim(one);
      edges_.take_lower_step(cooling_load, one);
    }
  }

  /// A heater that draws little more than a starting compressor is told by how evenly it draws, where a drip time
  /// follows it and the log is hardly ever between its level and all else. (An inverter's levels have no such band.)
  static bool stands_out(const HeaterSearch& tried, const HeaterRun& run, double contrast) {
    if (contrast >= least_heater_contrast) return true;
    const bool has_empty_band = tried.threshold > 1.01 * level_ratio * tried.outside_load;  // more than one step
    return has_empty_band && run.drip_seen && run.spread < even_spread &&
           contrast - 1.0 > clear_of_scatter * run.spread;
  }

  /// Scores the runs, drops those that do not count, and gives the sum.
  double judge(HeaterSearch& tried) const {
    const bool coarse = window_.spacing_second > coarse_spacing_second;
    double penalty = 0.0;
    std::size_t shorter = 0;
    double longest_shorter = 0.0;
    std::vector<HeaterRun> long_enough;
    for (const HeaterRun& run : tried.runs) {
      const double duration = run.run.duration_second();
      if (duration >= tried.shortest_second || run.run.is_cut)
        long_enough.push_back(run);
      else if (duration >= 0.7 * tried.shortest_second && tried.shortest_second > 150.0)
        penalty += 0.5;  // no clear boundary between what counts and what does not
      if (duration < tried.shortest_second && !run.run.is_cut) {
        ++shorter;
        longest_shorter = std::max(longest_shorter, duration);
      }
    }
    std::vector<double> starts;
    for (const HeaterRun& run : long_enough) starts.push_back(run.run.start_second);
    double sum = -penalty;
    std::vector<HeaterRun> counting;
    for (std::size_t i = 0; i < long_enough.size(); ++i) {
      HeaterRun& run = long_enough[i];
      const double contrast = run.load / std::max(tried.outside_load, 1e-9);
      const double duration = run.run.duration_second();
      double score = std::clamp(std::log(contrast) / std::log(1.5), -1.0, 1.5);
      score += run.run.is_cut ? std::min(0.0, duration_score(duration) + 0.8) : duration_score(duration);
      score += run.spread < even_spread ? 0.4 : (run.spread < 0.14 ? 0.0 : -0.5);
      if (run.drip_seen)
        score += 0.8;
      else if (!coarse && !run.run.is_cut)
        score -= 0.4 + (duration < 300.0 ? 0.8 : 0.0);
      score += spacing_score(nearest(starts, i));
      if (run.rides_on_cooling) score -= 1.5;
      if (run.pulls_down) score -= 1.5;
      // Rows that are close show how short it is: a kettle's, a microwave oven's.
      if (!coarse && !run.run.is_cut && duration < shortest_fine_second) score -= 1.5;
      // The longest of many short ones are no heater's.
      if (shorter > long_enough.size() && duration < 1.6 * longest_shorter) score -= 1.5;
      run.score = score;
      // What does not count speaks for no threshold either.
      const bool counts = stands_out(tried, run, contrast);
      sum += std::clamp(score - 1.2, -1.0, counts ? 1.5 : 0.0);
      if (score >= 1.0 && counts) counting.push_back(run);
    }
    tried.runs = std::move(counting);
    return sum;
  }

  const Window& window_;
  std::vector<double> load_;
  double least_load_;
  std::size_t most_runs_;  ///< more of them are no heater's
  double whole_second_ = 0.0;
  bool rests_often_ = false;  ///< for two fifths of the time below all levels that are tried
  HeaterEdges edges_;
  HeaterRuns runs_;
  std::vector<double> levels_;
};

}  // namespace

HeaterSearch search_heater(const Window& window) { return HeaterFinder(window).best(); }

}  // namespace ohmwright::cycles
