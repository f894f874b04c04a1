#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/search/defrost_phases.hpp>
#include <ohmwright/cycles/search/excursion_search.hpp>
#include <ohmwright/cycles/search/heater_search.hpp>
#include <ohmwright/cycles/search/quick_rise_search.hpp>
#include <ohmwright/cycles/search/window_search.hpp>
#include <ohmwright/cycles/weakest_heater.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double shortest_without_rise_second = 360.0;  ///< less heat is an ice maker's, where no coil warms
constexpr double heater_pause_second = 150.0;
constexpr double rows_of_minutes_second = 100.0;  ///< in which one row below a heater's level is its drip time
constexpr double well_logged = 0.5;        ///< share of a defrost in which a column has values, so that it tells of it
constexpr double rise_lag_second = 600.0;  ///< a sensor warms this long after the heater at most

/// What a defrost heater draws at least, at the lowest line: the rated one's, or the weakest that is known [W, A].
double least_heater_load(bool is_current, const LogRatings& ratings) {
  const double weakest = is_current ? weakest_heater_ampere : weakest_heater_watt;
  if (!ratings.heater_watt) return weakest;
  const double rated = is_current && ratings.heater_volt > 0.0
                           ? ratings.heater_watt->lower / ratings.heater_volt * lowest_line_share
                           : ratings.heater_watt->lower * lowest_line_share * lowest_line_share;
  return std::min(weakest, rated);
}

class Builder {
 public:
  Builder(const Window& window, const LogRatings& ratings)
      : window_(window),
        load_(where_logged(window, &Window::load, load_room_)),
        coil_(where_logged(window, &Window::coil, coil_room_)),
        cabinet_(where_logged(window, &Window::cabinet, cabinet_room_)),
        ratings_(ratings) {}

  WindowEvents build() {
    if (!load_.load.empty()) heater_ = search_heater(load_);
    least_heater_load_ = least_heater_load(load_.load_is_current, ratings_);
    if (!coil_.coil.empty())
      warm_ = search_excursions(coil_, coil_.coil, SensorPlace::coil);
    else if (window_.load.empty() && !window_.cabinet.empty())
      warm_ = search_excursions(cabinet_, cabinet_.cabinet, SensorPlace::cabinet);
    std::vector<char> attached(warm_.excursions.size(), 0);
    for (const HeaterRun& run : heater_.runs) take_heater(run, attached);
    if (events_.weak_heatings > 0 && events_.defrosts.empty()) heater_.threshold = 0.0;  // it parts nothing
    for (std::size_t i = 0; i < attached.size(); ++i)
      if (attached[i] == 0) take_rise(warm_.excursions[i]);
    std::sort(events_.defrosts.begin(), events_.defrosts.end(),
              [](const Defrost& a, const Defrost& b) { return a.start_second < b.start_second; });
    find_compressor();
    for (Defrost& defrost : events_.defrosts) describe(defrost);
    drop_what_does_not_warm();
    drop_rises_while_cooling();
    drop_slow_rises_among_quick_ones();
    for (Defrost& defrost : events_.defrosts) {
      if (compressor_by_load_) describe_pause(events_.compressor.runs, window_.spacing_second, defrost);
    }
    find_doors();
    name_thresholds();
    events_.one_level_second = heater_.one_level_second;
    events_.short_stand_outs = heater_.short_stand_outs;
    events_.too_frequent = heater_.too_frequent;
    events_.heats_at_only_level = heater_.heats_at_only_level;
    return std::move(events_);
  }

 private:
  static bool overlap(const Window& window, const Excursion& rise, double start, double end) {
    return window.start[rise.onset] < end + rise_lag_second && window.end_of(rise.peak) > start;
  }

  void take_heater(const HeaterRun& run, std::vector<char>& attached) {
    Defrost defrost;
    defrost.start_second = run.run.start_second;
    defrost.end_second = run.run.end_second;
    defrost.heater_is_seen = true;
    defrost.is_cut = run.run.is_cut;
    defrost.heater_load = run.load;
    defrost.score = run.score;
    bool warms = false;
    for (std::size_t i = 0; i < warm_.excursions.size(); ++i) {
      if (!overlap(warm_window(), warm_.excursions[i], defrost.start_second, defrost.end_second)) continue;
      attached[i] = 1;
      warms = defrost.rise_is_seen = true;  // few rows of heating may not show what the excursion does
      defrost.score += 0.5;
    }
    // In a circuit of its own nothing cools, and whatever draws there heats.
    if (!heater_.heats_at_only_level && run.load < least_heater_load_ && !run.run.is_cut && !coil_may_melt(defrost)) {
      ++events_.weak_heatings;
      events_.weak_heating_load = std::max(events_.weak_heating_load, run.load);
      return;
    }
    if (warms || !coil_falls(defrost)) events_.defrosts.push_back(defrost);
  }

  /// Whether the coil gets to the melting point, but for a margin: only then less than a heater draws may heat it, as
  /// hot gas does. Not where no coil was logged.
  bool coil_may_melt(const Defrost& defrost) const {
    constexpr double margin_kelvin = 1.5;
    if (coil_.coil.empty() || !is_logged(coil_, defrost.start_second, defrost.end_second)) return false;
    double most = 0.0;
    for (std::size_t i = sample_at(coil_, defrost.start_second);
         i < coil_.size() && coil_.start[i] < defrost.end_second + rise_lag_second; ++i)
      if (!std::isnan(coil_.coil[i])) most = std::max(most, coil_.coil[i]);
    return most >= melting_point_kelvin - margin_kelvin;
  }

  /// No heater cools the coil: what draws while it grows colder is the compressor.
  bool coil_falls(const Defrost& defrost) const {
    if (coil_.coil.empty() || !is_logged(coil_, defrost.start_second, defrost.end_second)) return false;
    const double first = coil_.coil[sample_at(coil_, defrost.start_second)];
    const double last = coil_.coil[sample_at(coil_, defrost.end_second - 1e-6)];
    return first - last > std::max(2.0, 6.0 * coil_.coil_noise);
  }

  /// A rise to which no heater run belongs: a heater that draws less than the compressor, or none at all.
  void take_rise(const Excursion& rise) {
    Defrost defrost;
    defrost.start_second = rise.onset_second;
    defrost.end_second = warm_window().end_of(rise.heat_end);
    defrost.rise_is_seen = true;
    defrost.is_cut = rise.is_cut;
    defrost.score = rise.score;
    const double peak_second = warm_window().start[rise.peak];
    if (!load_.load.empty() && is_logged(load_, warm_window().start[rise.onset], peak_second))
      find_weak_heater(rise, defrost);
    events_.defrosts.push_back(defrost);
  }

  /// The samples in which the rises were looked for.
  const Window& warm_window() const { return window_.coil.empty() ? cabinet_ : coil_; }

  void find_weak_heater(const Excursion& rise, Defrost& defrost) const {
    const double onset_second = warm_window().start[rise.onset];
    const double peak_second = warm_window().start[rise.peak];
    const std::size_t onset = sample_at(load_, onset_second);
    const std::size_t peak = std::max(onset, sample_at(load_, peak_second));
    const double low = time_quantile(load_.load, load_.width, 0.02);
    const double usual = time_quantile(load_.load, load_.width, 0.95);
    std::vector<double> inside(load_.load.begin() + static_cast<std::ptrdiff_t>(onset),
                               load_.load.begin() + static_cast<std::ptrdiff_t>(peak) + 1);
    const double level = median_of(std::move(inside));
    if (level < low + 0.3 * (usual - low) || level <= 0.0) return;
    const double threshold = low + 0.5 * (level - low);
    // A drip time that fills no row makes one that is below the heater's level, and the compressor's is what follows.
    const double ending = load_.spacing_second >= rows_of_minutes_second ? low + 0.85 * (level - low) : threshold;
    const std::size_t middle = (onset + peak) / 2;
    std::size_t begin = middle;
    std::size_t end = middle;
    // Not into a compressor's run before it: heat shows in the coil within some minutes.
    const double earliest = onset_second - 300.0 - load_.spacing_second;
    // Some heaters pause for a minute now and then.
    // Nor over a pause from before the coil's rise: then it was the compressor that ran.
    for (std::size_t i = middle; i > 0 && load_.start[i - 1] > earliest; --i) {
      if (i < begin && load_.start[i - 1] < onset_second - load_.spacing_second) break;
      if (load_.load[i - 1] >= threshold) begin = i - 1;
      if (load_.start[begin] - load_.start[i - 1] > heater_pause_second) break;
    }
    for (std::size_t i = middle; i < load_.size(); ++i) {
      // What draws again when the coil has been at its warmest heats it no more.
      if (end > begin && i > end && load_.start[i] > peak_second + load_.spacing_second) break;
      if (load_.load[i] >= (end > begin ? ending : threshold)) end = i + 1;
      if (end > begin && load_.start[i] - load_.start[end - 1] > heater_pause_second) break;
      if (end > begin && i >= end && load_.spacing_second >= rows_of_minutes_second) break;
      if (load_.start[i] > peak_second + 900.0) break;
    }
    if (end <= begin || load_.start[end - 1] > peak_second + 900.0 + load_.spacing_second) return;
    defrost.heater_is_seen = true;
    // What draws as much since before the rise can have begun is the compressor: its gas heats from the rise on.
    const bool drew_before = begin == 0 || load_.start[begin - 1] <= earliest;
    if (!drew_before || load_.load[begin] < threshold || load_.load[begin > 0 ? begin - 1 : 0] < threshold)
      defrost.start_second = load_.start[begin];
    defrost.end_second = load_.end_of(end - 1);
    defrost.heater_load = level;
  }

  void find_compressor() {
    if (!load_.load.empty()) {
      HeaterSearch all = heater_;
      all.runs.clear();
      for (const Defrost& defrost : events_.defrosts)
        if (defrost.heater_is_seen) all.runs.push_back(as_run(defrost));
      events_.compressor = compressor_by_load(load_, all);
      compressor_by_load_ = events_.compressor.levels_found;
    }
    if (compressor_by_load_) return;
    if (!window_.coil.empty())
      events_.compressor = compressor_by_temperature(coil_, coil_.coil);
    else if (!window_.cabinet.empty())
      events_.compressor = compressor_by_temperature(cabinet_, cabinet_.cabinet);
  }

  HeaterRun as_run(const Defrost& defrost) const {
    for (const HeaterRun& run : heater_.runs)
      if (run.run.start_second == defrost.start_second) return run;
    HeaterRun run;
    run.run.begin = sample_at(load_, defrost.start_second);
    run.run.end = sample_at(load_, defrost.end_second - 1e-6) + 1;
    run.run.start_second = defrost.start_second;
    run.run.end_second = defrost.end_second;
    run.load = defrost.heater_load;
    return run;
  }

  static std::size_t sample_at(const Window& window, double second) {
    const auto at = std::upper_bound(window.start.begin(), window.start.end(), second);
    return at == window.start.begin() ? 0 : static_cast<std::size_t>(at - window.start.begin()) - 1;
  }

  static bool is_logged(const Window& window, double from_second, double to_second) {
    return logged_share(window, from_second, std::max(to_second, from_second + window.spacing_second)) >= well_logged;
  }

  void describe(Defrost& defrost) const {
    defrost.has_load = !window_.load.empty() && is_logged(load_, defrost.start_second, defrost.end_second);
    if (defrost.heater_is_seen && !window_.load_is_current) add_energy(defrost);
    const bool rose = defrost.rise_is_seen;
    if (!window_.coil.empty() && is_logged(coil_, defrost.start_second, defrost.end_second))
      describe_coil(coil_, defrost);
    if (window_.coil.empty() && !window_.cabinet.empty()) defrost.rise_is_seen = cabinet_rises(defrost);
    defrost.rise_is_seen = defrost.rise_is_seen || rose;
    const double running = compressor_by_load_ ? events_.compressor.running_load : 0.0;
    constexpr double like_running = 0.25;  // a start draws more than the run behind it
    defrost.draws_like_compressor =
        defrost.heater_is_seen && running > 0.0 && std::abs(defrost.heater_load - running) < like_running * running;
    if (defrost.draws_like_compressor && !ratings_.heater_watt) return;  // hot gas melts more than it draws
    weigh_frost(ratings_, window_.spacing_second, window_.load_is_current, defrost);
  }

  void add_energy(Defrost& defrost) const {
    const std::size_t begin = sample_at(load_, defrost.start_second);
    const std::size_t end = std::min(sample_at(load_, defrost.end_second - 1e-6) + 1, load_.size());
    for (std::size_t i = begin; i < end; ++i) defrost.energy_joule += load_.load_mean[i] * load_.width[i];
  }

  bool cabinet_rises(const Defrost& defrost) const {
    const std::size_t begin = sample_at(cabinet_, defrost.start_second);
    double most = cabinet_.cabinet[begin];
    for (std::size_t i = begin; i < cabinet_.size() && cabinet_.start[i] < defrost.end_second + 1800.0; ++i)
      most = std::max(most, cabinet_.cabinet[i]);
    return most - cabinet_.cabinet[begin] > std::max(0.5, 4.0 * cabinet_.cabinet_noise);
  }

  /// Where some heating warms, heating of another length or level that does not, or one behind which cooling goes on,
  /// is an ice maker's. Where none warms, the sensor or its place is the fault, and that is a finding of its own.
  void drop_what_does_not_warm() {
    std::vector<double> loads;
    std::vector<double> seconds;
    for (const Defrost& one : events_.defrosts)
      if (one.heater_is_seen && one.rise_is_seen && !one.is_cut) {
        loads.push_back(one.heater_load);
        seconds.push_back(one.end_second - one.start_second);
      }
    if (loads.empty()) {
      if (window_.coil.empty()) return;
      std::erase_if(events_.defrosts, [](const Defrost& one) {
        return one.heater_is_seen && one.has_coil && !one.rise_is_seen &&
               one.end_second - one.start_second < shortest_without_rise_second;
      });
      return;
    }
    const double usual_load = median_of(std::move(loads));
    const double usual_second = median_of(std::move(seconds));
    std::erase_if(events_.defrosts, [&](const Defrost& one) {
      if (!one.heater_is_seen || one.rise_is_seen || one.is_cut) return false;
      if (!window_.coil.empty() && !one.has_coil) return false;  // whether it warmed was not logged
      return std::abs(one.heater_load - usual_load) > 0.1 * usual_load ||
             one.end_second - one.start_second < 0.6 * usual_second || (one.has_coil && !as_run(one).drip_seen);
    });
  }

  /// Where a heater of another level makes most rises, one in which the load is the compressor's is something else: a
  /// door left open, warm food.
  void drop_rises_while_cooling() {
    const auto cools = [](const Defrost& one) { return one.draws_like_compressor && one.rise_is_seen; };
    const auto cooling = std::count_if(events_.defrosts.begin(), events_.defrosts.end(), cools);
    const auto heated = std::count_if(events_.defrosts.begin(), events_.defrosts.end(), [&](const Defrost& one) {
      return one.heater_is_seen && one.rise_is_seen && !one.draws_like_compressor;
    });
    if (heated >= 2 && heated > cooling) std::erase_if(events_.defrosts, cools);
  }

  /// From its start to the melting point, or to its peak where it stays below [s].
  double warming_second(const Defrost& defrost) const {
    constexpr double hardly_below_kelvin = melting_point_kelvin - 2.0;
    std::size_t i = sample_at(coil_, defrost.start_second);
    while (i + 1 < coil_.size() && coil_.start[i] < defrost.end_second && coil_.coil[i] < hardly_below_kelvin) ++i;
    return coil_.start[i] - defrost.start_second;
  }

  /// Of the coil alone: a rise that takes far longer to the melting point than a heater makes the others, and lasts far
  /// longer, is a door's that was left open, where such are few among many. The same heater warms the same coil.
  void drop_slow_rises_among_quick_ones() {
    constexpr double far_longer = 2.5;
    constexpr std::size_t fewest = 5;
    constexpr std::size_t one_of = 5;
    if (!window_.load.empty() || window_.coil.empty() || events_.defrosts.size() < fewest) return;
    std::vector<double> warming;
    std::vector<double> seconds;
    for (const Defrost& one : events_.defrosts) {
      warming.push_back(warming_second(one));
      seconds.push_back(one.end_second - one.start_second);
    }
    const double row_second = 2.0 * window_.spacing_second;
    const double usual_warming = std::max(row_second, median_of(std::move(warming)));
    const double usual_second = std::max(row_second, median_of(std::move(seconds)));
    const auto is_slow = [&](const Defrost& one) {
      return !one.is_cut && one.rise_is_seen && warming_second(one) > far_longer * usual_warming &&
             one.end_second - one.start_second > far_longer * usual_second;
    };
    const auto slow = std::count_if(events_.defrosts.begin(), events_.defrosts.end(), is_slow);
    if (static_cast<std::size_t>(slow) * one_of > events_.defrosts.size()) return;
    for (const Defrost& one : events_.defrosts)
      if (is_slow(one))
        events_.doors.push_back(
            {one.start_second, one.peak_kelvin.value_or(0.0) - coil_.coil[sample_at(coil_, one.start_second)]});
    std::erase_if(events_.defrosts, is_slow);
  }

  void find_doors() {
    if (window_.cabinet.empty()) return;
    const QuickRiseSearch quick = search_quick_rises(cabinet_, cabinet_.cabinet);
    door_threshold_ = quick.threshold_kelvin;
    for (const QuickRise& rise : quick.rises) {
      const bool heated = std::any_of(events_.defrosts.begin(), events_.defrosts.end(), [&](const Defrost& defrost) {
        return rise.start_second > defrost.start_second - 60.0 && rise.start_second < defrost.end_second + 1200.0;
      });
      if (!heated) events_.doors.push_back({rise.start_second, rise.rise_kelvin});
    }
  }

  void name_thresholds() {
    const bool amperes = window_.load_is_current;
    const auto add = [&](std::string_view id, double value) {
      if (value > 0.0) events_.thresholds.push_back({id, value});
    };
    if (!window_.load.empty()) {
      add(amperes ? "heater_ampere" : "heater_watt", heater_.threshold);
      add("heater_shortest_second", heater_.threshold > 0.0 ? heater_.shortest_second : 0.0);
    }
    if (compressor_by_load_) {
      add(amperes ? "compressor_on_ampere" : "compressor_on_watt", events_.compressor.on_threshold);
      add(amperes ? "compressor_off_ampere" : "compressor_off_watt", events_.compressor.off_threshold);
    } else {
      add("compressor_swing_kelvin", events_.compressor.on_threshold);
    }
    add(window_.coil.empty() ? "cabinet_excursion_kelvin" : "coil_excursion_kelvin", warm_.threshold_kelvin);
    add("door_rise_kelvin", door_threshold_);
    add("gap_second", window_.gap_limit_second);
  }

  const Window& window_;
  Window load_room_;
  Window coil_room_;
  Window cabinet_room_;
  const Window& load_;  ///< where the load was logged; the window itself where it has no hole
  const Window& coil_;
  const Window& cabinet_;
  const LogRatings& ratings_;
  HeaterSearch heater_;
  ExcursionSearch warm_;
  WindowEvents events_;
  bool compressor_by_load_ = false;
  double door_threshold_ = 0.0;
  double least_heater_load_ = 0.0;  ///< [W, A]
};

}  // namespace

WindowEvents search_window(const Window& window, const LogRatings& ratings) { return Builder(window, ratings).build(); }

}  // namespace ohmwright::cycles
