#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <ohmwright/cycles/search/compressor_search.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::size_t bins = 128;
constexpr double shortest_run_second = 60.0;
constexpr double bridged_gap_second = 300.0;

struct Classes {
  bool found = false;
  double threshold = 0.0;  ///< in the logarithm
  double low = 0.0;
  double high = 0.0;
};

Classes otsu(const std::array<double, bins>& time, double least, double step) {
  double whole = 0.0;
  double moment = 0.0;
  double square = 0.0;
  for (std::size_t i = 0; i < bins; ++i) {
    const auto x = static_cast<double>(i);
    whole += time[i];
    moment += time[i] * x;
    square += time[i] * x * x;
  }
  Classes classes;
  if (whole <= 0.0) return classes;
  const double variance = square / whole - moment / whole * moment / whole;
  double below = 0.0;
  double moment_below = 0.0;
  double best = -1.0;
  std::size_t first_best = 0;
  std::size_t last_best = 0;
  for (std::size_t i = 0; i + 1 < bins; ++i) {
    below += time[i];
    moment_below += time[i] * static_cast<double>(i);
    if (below <= 0.02 * whole || below >= 0.98 * whole) continue;
    const double low = moment_below / below;
    const double high = (moment - moment_below) / (whole - below);
    const double between = below / whole * (1.0 - below / whole) * (high - low) * (high - low);
    if (between > best * (1.0 + 1e-9)) {
      best = between;
      first_best = i;
      classes.low = least + step * (low + 0.5);
      classes.high = least + step * (high + 0.5);
    }
    if (between >= best * (1.0 - 1e-9)) last_best = i;
  }
  classes.threshold = least + step * (static_cast<double>(first_best + last_best) / 2.0 + 1.0);
  classes.found = best > 0.6 * variance && variance > 0.0;
  return classes;
}

/// Whether a sample belongs to heating or its edges.
std::vector<char> heated(const Window& window, const HeaterSearch& heater) {
  std::vector<char> inside(window.size(), 0);
  for (const HeaterRun& one : heater.runs) {
    const std::size_t begin = one.run.begin > 0 ? one.run.begin - 1 : 0;
    const std::size_t end = std::min(one.run.end + 1, window.size());
    std::fill(inside.begin() + static_cast<std::ptrdiff_t>(begin), inside.begin() + static_cast<std::ptrdiff_t>(end),
              1);
  }
  return inside;
}

double lowest_after_heating(const Window& window, const HeaterSearch& heater) {
  std::vector<double> lows;
  for (const HeaterRun& one : heater.runs) {
    double low = one.load;
    for (std::size_t i = one.run.end; i < window.size() && window.start[i] < one.run.end_second + 1800.0; ++i)
      low = std::min(low, window.load[i]);
    if (one.drip_seen) lows.push_back(low);
  }
  return lows.empty() ? -1.0 : median_of(lows);
}

/// Share of a row at a run's edge that ran, where rows are means over their time: counted whole, such rows would make
/// each run longer by a row. `run` lies in samples [begin, end).
void draw_in_edges(const Window& window, std::size_t begin, std::size_t end, const CompressorSearch& search,
                   CompressorRun& run) {
  double level = search.running_load;
  if (end - begin >= 3) {
    level = window.load[begin + 1];
    for (std::size_t i = begin + 1; i + 1 < end; ++i) level = std::min(level, window.load[i]);
  }
  const auto idle_second = [&](std::size_t i) {
    if (level <= search.standing_load) return 0.0;
    const double share = (window.load[i] - search.standing_load) / (level - search.standing_load);
    return (1.0 - std::clamp(share, 0.0, 1.0)) * window.width[i];
  };
  if (run.start_is_seen) run.start_second += idle_second(begin);
  if (run.end_is_seen && end > begin + 1) run.end_second -= idle_second(end - 1);
}

void take_runs(const Window& window, const std::vector<char>& inside, CompressorSearch& search) {
  bool on = false;
  std::size_t begin = 0;
  double sum = 0.0;
  double weight = 0.0;
  const auto close = [&](std::size_t end, double second, bool seen) {
    CompressorRun& run = search.runs.back();
    run.end_second = second;
    run.end_is_seen = seen;
    draw_in_edges(window, begin, end, search, run);
    run.mean_load = static_cast<float>(weight > 0.0 ? sum / weight : 0.0);
    on = false;
  };
  for (std::size_t i = 0; i < window.size(); ++i) {
    // Missing minutes do not end a run that goes on behind them.
    const bool after_gap = i > 0 && window.gap_after[i - 1] != 0;
    const bool ends = after_gap && (window.start[i] - window.end_of(i - 1) > bridged_gap_second || inside[i] != 0 ||
                                    window.load[i] < search.off_threshold);
    if (on && ends) close(i, window.end_of(i - 1), false);
    const bool was_on = on;
    const bool is_on = inside[i] == 0 && window.load[i] >= (was_on ? search.off_threshold : search.on_threshold);
    if (on && !is_on) close(i, window.start[i], true);
    if (!on && is_on) {
      search.runs.push_back({window.start[i], window.start[i], 0.0F, i != 0 && !after_gap, true});
      on = true;
      begin = i;
      sum = 0.0;
      weight = 0.0;
    }
    if (!on) continue;
    sum += window.load[i] * window.width[i];
    weight += window.width[i];
  }
  if (on) close(window.size(), window.end_of(window.size() - 1), false);
}

/// Joins runs that pause for less than a minute, and takes away those that last for less: counted, not listed.
void settle(CompressorSearch& search) {
  constexpr double shortest = 0.9 * shortest_run_second;  // rows of a minute jitter
  std::vector<CompressorRun> joined;
  for (const CompressorRun& run : search.runs) {
    if (!joined.empty() && run.start_second - joined.back().end_second < shortest && joined.back().end_is_seen) {
      search.short_pulse_seconds.push_back(joined.back().end_second);
      joined.back() = {joined.back().start_second, run.end_second, joined.back().mean_load, joined.back().start_is_seen,
                       run.end_is_seen};
    } else {
      joined.push_back(run);
    }
  }
  search.runs.clear();
  for (const CompressorRun& run : joined) {
    const bool is_short = run.end_second - run.start_second < shortest && run.start_is_seen && run.end_is_seen;
    if (is_short)
      search.short_pulse_seconds.push_back(run.start_second);
    else
      search.runs.push_back(run);
  }
}

/// What is drawn outside of the heatings, and for how long each [s].
struct Rest {
  std::vector<double> loads;
  std::vector<double> widths;
};

Rest rest_of(const Window& window, const std::vector<char>& inside) {
  Rest rest;
  for (std::size_t i = 0; i < window.size(); ++i) {
    if (inside[i] != 0) continue;
    rest.loads.push_back(window.load[i]);
    rest.widths.push_back(window.width[i]);
  }
  return rest;
}

/// Two loads in which the rest falls, and the one that parts them; `top`: the highest of it, but for starts.
struct LoadClasses {
  bool found = false;
  double standing = 0.0;
  double middle = 0.0;
  double running = 0.0;
};

LoadClasses classes_of(const Rest& rest, double top, double offset) {
  const double least = std::log(offset);
  const double step = (std::log(top * 1.2 + offset) - least) / bins;
  std::array<double, bins> time{};
  for (std::size_t i = 0; i < rest.loads.size(); ++i) {
    const auto bin = static_cast<std::size_t>(std::max(0.0, (std::log(rest.loads[i] + offset) - least) / step));
    time[std::min(bin, bins - 1)] += rest.widths[i];
  }
  const Classes classes = otsu(time, least, step);
  return {classes.found, std::exp(classes.low) - offset, std::exp(classes.threshold) - offset,
          std::exp(classes.high) - offset};
}

/// It runs and stands: between the two, nearer to the lower one: an inverter runs slowly, but nothing stands fast.
void set_swing(const LoadClasses& classes, CompressorSearch& search) {
  const double apart = classes.running - classes.standing;
  search.levels_found = true;
  search.standing_load = classes.standing;
  search.running_load = classes.running;
  const double split = std::clamp(classes.middle, classes.standing + 0.25 * apart, classes.standing + 0.6 * apart);
  search.on_threshold = split + 0.05 * apart;
  search.off_threshold = split - 0.05 * apart;
}

/// It never stands but for drip times, in which the load falls to `drip`.
void set_one_level(const Rest& rest, double level, double drip, CompressorSearch& search) {
  search.levels_found = true;
  search.never_stops = true;
  // A compressor of one speed draws somewhat more after a start and on a hot day (common practice, no source).
  constexpr double widest_of_one_speed = 1.5;
  search.is_modulated =
      time_quantile(rest.loads, rest.widths, 0.9) > widest_of_one_speed * time_quantile(rest.loads, rest.widths, 0.1);
  search.standing_load = drip;
  search.running_load = level;
  search.on_threshold = drip + 0.45 * (level - drip);
  search.off_threshold = drip + 0.35 * (level - drip);
}

}  // namespace

CompressorSearch compressor_by_load(const Window& window, const HeaterSearch& heater) {
  CompressorSearch search;
  const std::vector<char> inside = heated(window, heater);
  const Rest rest = rest_of(window, inside);
  if (rest.loads.empty()) return search;
  const double top = time_quantile(rest.loads, rest.widths, 0.98);
  if (top <= 0.0) return search;
  const double offset = 0.05 * top;  // keeps the logarithm of a standby of nought at hand
  const LoadClasses classes = classes_of(rest, top, offset);
  if (classes.found && classes.running - classes.standing > 0.35 * classes.running) {
    set_swing(classes, search);
  } else {
    const double drip = lowest_after_heating(window, heater);
    const double level = time_quantile(rest.loads, rest.widths, 0.5);
    if (drip < 0.0 || level < 2.0 * std::max(drip, offset)) return search;
    set_one_level(rest, level, drip, search);
  }
  take_runs(window, inside, search);
  settle(search);
  return search;
}

}  // namespace ohmwright::cycles
