#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/search/defrost_phases.hpp>
#include <ohmwright/cycles/search/excursion_search.hpp>
#include <ohmwright/cycles/search/heater_search.hpp>
#include <ohmwright/cycles/search/quick_rise_search.hpp>
#include <ohmwright/cycles/search/window_search.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double shortest_without_rise_second = 360.0;  ///< less heat is an ice maker's, where no coil warms
constexpr double heater_pause_second = 150.0;
constexpr double rise_lag_second = 600.0;  ///< a sensor warms this long after the heater at most

class Builder {
 public:
  Builder(const Window& window, const LogRatings& ratings) : window_(window), ratings_(ratings) {}

  WindowEvents build() {
    if (!window_.load.empty()) heater_ = search_heater(window_);
    if (!window_.coil.empty())
      warm_ = search_excursions(window_, window_.coil, SensorPlace::coil);
    else if (window_.load.empty() && !window_.cabinet.empty())
      warm_ = search_excursions(window_, window_.cabinet, SensorPlace::cabinet);
    std::vector<char> attached(warm_.excursions.size(), 0);
    for (const HeaterRun& run : heater_.runs) take_heater(run, attached);
    for (std::size_t i = 0; i < attached.size(); ++i)
      if (attached[i] == 0) take_rise(warm_.excursions[i]);
    std::sort(events_.defrosts.begin(), events_.defrosts.end(),
              [](const Defrost& a, const Defrost& b) { return a.start_second < b.start_second; });
    find_compressor();
    for (Defrost& defrost : events_.defrosts) describe(defrost);
    drop_what_does_not_warm();
    for (Defrost& defrost : events_.defrosts) {
      if (compressor_by_load_) describe_pause(events_.compressor.runs, window_.spacing_second, defrost);
    }
    find_doors();
    name_thresholds();
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
    for (std::size_t i = 0; i < warm_.excursions.size(); ++i) {
      if (!overlap(window_, warm_.excursions[i], defrost.start_second, defrost.end_second)) continue;
      attached[i] = 1;
      defrost.score += 0.5;
    }
    events_.defrosts.push_back(defrost);
  }

  /// A rise to which no heater run belongs: a heater that draws less than the compressor, or none at all.
  void take_rise(const Excursion& rise) {
    Defrost defrost;
    defrost.start_second = rise.onset_second;
    defrost.end_second = window_.end_of(rise.heat_end);
    defrost.rise_is_seen = true;
    defrost.is_cut = rise.is_cut;
    defrost.score = rise.score;
    if (!window_.load.empty()) find_weak_heater(rise, defrost);
    events_.defrosts.push_back(defrost);
  }

  void find_weak_heater(const Excursion& rise, Defrost& defrost) const {
    const double low = time_quantile(window_.load, window_.width, 0.02);
    const double usual = time_quantile(window_.load, window_.width, 0.95);
    std::vector<double> inside(window_.load.begin() + static_cast<std::ptrdiff_t>(rise.onset),
                               window_.load.begin() + static_cast<std::ptrdiff_t>(rise.peak) + 1);
    const double level = median_of(std::move(inside));
    if (level < low + 0.3 * (usual - low) || level <= 0.0) return;
    const double threshold = low + 0.5 * (level - low);
    const std::size_t middle = (rise.onset + rise.peak) / 2;
    std::size_t begin = middle;
    std::size_t end = middle;
    // Not into a compressor's run before it: heat shows in the coil within some minutes.
    const double earliest = window_.start[rise.onset] - 300.0 - window_.spacing_second;
    // Some heaters pause for a minute now and then.
    for (std::size_t i = middle; i > 0 && window_.start[i - 1] > earliest; --i) {
      if (window_.load[i - 1] >= threshold) begin = i - 1;
      if (window_.start[begin] - window_.start[i - 1] > heater_pause_second) break;
    }
    for (std::size_t i = middle; i < window_.size(); ++i) {
      if (window_.load[i] >= threshold) end = i + 1;
      if (end > begin && window_.start[i] - window_.start[end - 1] > heater_pause_second) break;
      if (window_.start[i] > window_.start[rise.peak] + 900.0) break;
    }
    if (end <= begin || window_.start[end - 1] > window_.start[rise.peak] + 900.0 + window_.spacing_second) return;
    defrost.heater_is_seen = true;
    defrost.start_second = window_.start[begin];
    defrost.end_second = window_.end_of(end - 1);
    defrost.heater_load = level;
  }

  void find_compressor() {
    if (!window_.load.empty()) {
      HeaterSearch all = heater_;
      all.runs.clear();
      for (const Defrost& defrost : events_.defrosts)
        if (defrost.heater_is_seen) all.runs.push_back(as_run(defrost));
      events_.compressor = compressor_by_load(window_, all);
      compressor_by_load_ = events_.compressor.levels_found;
    }
    if (compressor_by_load_) return;
    if (!window_.coil.empty())
      events_.compressor = compressor_by_temperature(window_, window_.coil);
    else if (!window_.cabinet.empty())
      events_.compressor = compressor_by_temperature(window_, window_.cabinet);
  }

  HeaterRun as_run(const Defrost& defrost) const {
    for (const HeaterRun& run : heater_.runs)
      if (run.run.start_second == defrost.start_second) return run;
    HeaterRun run;
    run.run.begin = sample_at(defrost.start_second);
    run.run.end = sample_at(defrost.end_second - 1e-6) + 1;
    run.run.start_second = defrost.start_second;
    run.run.end_second = defrost.end_second;
    run.load = defrost.heater_load;
    return run;
  }

  std::size_t sample_at(double second) const {
    const auto at = std::upper_bound(window_.start.begin(), window_.start.end(), second);
    return at == window_.start.begin() ? 0 : static_cast<std::size_t>(at - window_.start.begin()) - 1;
  }

  void describe(Defrost& defrost) const {
    const std::size_t begin = sample_at(defrost.start_second);
    const std::size_t end = std::min(sample_at(defrost.end_second - 1e-6) + 1, window_.size());
    if (defrost.heater_is_seen && !window_.load_is_current)
      for (std::size_t i = begin; i < end; ++i) defrost.energy_joule += window_.load_mean[i] * window_.width[i];
    const bool rose = defrost.rise_is_seen;
    describe_coil(window_, defrost);
    if (window_.coil.empty() && !window_.cabinet.empty()) {
      double most = window_.cabinet[begin];
      for (std::size_t i = begin; i < window_.size() && window_.start[i] < defrost.end_second + 1800.0; ++i)
        most = std::max(most, window_.cabinet[i]);
      defrost.rise_is_seen = most - window_.cabinet[begin] > std::max(0.5, 4.0 * window_.cabinet_noise);
    }
    defrost.rise_is_seen = defrost.rise_is_seen || rose;
    weigh_frost(ratings_, window_.spacing_second, window_.load_is_current, defrost);
  }

  /// Where some heating warms, heating of another length or level that does not is an ice maker's. Where none warms,
  /// the sensor or its place is the fault, and that is a finding of its own.
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
        return one.heater_is_seen && !one.rise_is_seen &&
               one.end_second - one.start_second < shortest_without_rise_second;
      });
      return;
    }
    const double usual_load = median_of(std::move(loads));
    const double usual_second = median_of(std::move(seconds));
    std::erase_if(events_.defrosts, [&](const Defrost& one) {
      if (!one.heater_is_seen || one.rise_is_seen || one.is_cut) return false;
      return std::abs(one.heater_load - usual_load) > 0.1 * usual_load ||
             one.end_second - one.start_second < 0.6 * usual_second;
    });
  }

  void find_doors() {
    if (window_.cabinet.empty()) return;
    const QuickRiseSearch quick = search_quick_rises(window_, window_.cabinet);
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
  const LogRatings& ratings_;
  HeaterSearch heater_;
  ExcursionSearch warm_;
  WindowEvents events_;
  bool compressor_by_load_ = false;
  double door_threshold_ = 0.0;
};

}  // namespace

WindowEvents search_window(const Window& window, const LogRatings& ratings) { return Builder(window, ratings).build(); }

}  // namespace ohmwright::cycles
