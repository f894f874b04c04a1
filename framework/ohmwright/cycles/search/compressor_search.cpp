#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <ohmwright/cycles/known_figures.hpp>
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
      search.short_pause_seconds.push_back(joined.back().end_second);
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

/// What the compressor draws in the quarter of an hour behind heatings, over what it usually draws: the middle one; 1
/// where no heating shows it. The first minutes are its start.
double draw_behind_heatings(const Window& window, const HeaterSearch& heater, const std::vector<char>& inside,
                            const CompressorSearch& search) {
  constexpr double longest_drip_second = 1800.0;
  constexpr double starting_second = 120.0;
  constexpr double pull_down_second = 900.0;
  std::vector<double> running;
  std::vector<double> widths;
  for (std::size_t i = 0; i < window.size(); ++i) {
    if (inside[i] != 0 || window.load[i] < search.off_threshold) continue;
    running.push_back(window.load[i]);
    widths.push_back(window.width[i]);
  }
  if (running.empty()) return 1.0;
  const double usual = time_quantile(running, widths, 0.5);
  std::vector<double> ratios;
  for (const HeaterRun& one : heater.runs) {
    if (one.run.is_cut) continue;
    const double latest_second = one.run.end_second + longest_drip_second;
    std::size_t i = one.run.end;
    while (i < window.size() && window.start[i] < latest_second &&
           (inside[i] != 0 || window.load[i] < search.on_threshold))
      ++i;
    if (i >= window.size() || window.start[i] >= latest_second) continue;
    std::vector<double> loads;
    const double runs_from = window.start[i];
    for (; i < window.size() && window.start[i] < runs_from + pull_down_second; ++i) {
      if (window.load[i] < search.off_threshold) break;
      if (window.start[i] >= runs_from + starting_second) loads.push_back(window.load[i]);
    }
    if (!loads.empty()) ratios.push_back(median_of(std::move(loads)) / usual);
  }
  return ratios.empty() ? 1.0 : median_of(std::move(ratios));
}

/// Whether it rests at heatings and never else, over a day and more: it would not stop by itself.
bool rests_at_heatings_alone(const Window& window, const HeaterSearch& heater, const std::vector<CompressorRun>& runs) {
  constexpr std::size_t fewest = 3;
  constexpr double long_enough_second = 24.0 * 3600.0;
  const double edge_second = 300.0 + window.spacing_second;
  if (window.end_of(window.size() - 1) - window.start.front() < long_enough_second) return false;
  std::size_t rests = 0;
  for (std::size_t i = 1; i < runs.size(); ++i) {
    if (!runs[i - 1].end_is_seen || !runs[i].start_is_seen) continue;
    // In longer ones it may run slowly.
    if (runs[i].start_second - runs[i - 1].end_second > past_any_limit_second) return false;
    const bool heats = std::any_of(heater.runs.begin(), heater.runs.end(), [&](const HeaterRun& one) {
      return one.run.start_second < runs[i].start_second + edge_second &&
             one.run.end_second > runs[i - 1].end_second - edge_second;
    });
    if (!heats) return false;
    ++rests;
  }
  return rests >= fewest;
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

bool are_far_apart(const LoadClasses& classes) {
  return classes.found && classes.running - classes.standing > 0.35 * classes.running;
}

/// What is drawn when all stands: in drip times, else the least that lasts for two minutes.
double lowest_of(const Window& window, const HeaterSearch& heater) {
  const double drip = lowest_after_heating(window, heater);
  if (drip >= 0.0) return drip;
  constexpr double lasting_second = 120.0;
  std::vector<double> turned;
  for (const double one : window.load) turned.push_back(-one);
  const std::vector<double> held = opened(window, turned, lasting_second);
  return held.empty() ? 0.0 : -*std::max_element(held.begin(), held.end());
}

/// Whether the lower of two classes is far above what is drawn when all stands: an inverter's slow running is no rest.
bool draws_at_rest(const LoadClasses& classes, double lowest) {
  constexpr double near_the_lowest = 0.25;  // of the way up to the higher class, from where on `set_swing` parts them
  return classes.standing - lowest > near_the_lowest * (classes.running - lowest);
}

/// Where one load that stands for half a day and longer makes nearly all of the upper level, as a heater does that
/// stays on beside the compressor, the compressor's own cycles lie below it: they are looked for in what remains.
void take_cycles_beside_lasting_load(const Window& window, const std::vector<char>& inside, CompressorSearch& search) {
  constexpr double lasting_second = 12.0 * 3600.0;
  constexpr double nearly_all = 0.9;
  constexpr double clearly_below = 0.6;
  if (search.runs.empty()) return;
  const auto second_of = [](const CompressorRun& run) { return run.end_second - run.start_second; };
  double all_second = 0.0;
  for (const CompressorRun& run : search.runs) all_second += second_of(run);
  const CompressorRun longest =
      *std::max_element(search.runs.begin(), search.runs.end(),
                        [&](const CompressorRun& a, const CompressorRun& b) { return second_of(a) < second_of(b); });
  if (second_of(longest) < lasting_second || second_of(longest) < nearly_all * all_second) return;
  std::vector<char> without = inside;
  for (std::size_t i = 0; i < window.size(); ++i)
    if (window.start[i] >= longest.start_second && window.start[i] < longest.end_second) without[i] = 1;
  const Rest below = rest_of(window, without);
  if (below.loads.empty()) return;
  const double top = time_quantile(below.loads, below.widths, 0.98);
  if (top <= 0.0) return;
  const LoadClasses classes = classes_of(below, top, 0.05 * top);
  if (!are_far_apart(classes) || classes.running > clearly_below * static_cast<double>(longest.mean_load)) return;
  search.runs.clear();
  set_swing(classes, search);
  take_runs(window, inside, search);
}

/// A compressor of one speed draws somewhat more after a start and on a hot day (common practice, no source).
constexpr double widest_of_one_speed = 1.5;

/// Whether what is drawn within runs, their edges left out, differs by more than one speed's does.
bool speed_varies(const Window& window, const std::vector<char>& inside, double off_threshold) {
  std::vector<double> loads;
  std::vector<double> widths;
  const auto runs = [&](std::size_t i) { return inside[i] == 0 && window.load[i] >= off_threshold; };
  for (std::size_t i = 1; i + 1 < window.size(); ++i) {
    if (!runs(i - 1) || !runs(i) || !runs(i + 1)) continue;
    loads.push_back(window.load[i]);
    widths.push_back(window.width[i]);
  }
  return !loads.empty() && time_quantile(loads, widths, 0.98) > widest_of_one_speed * time_quantile(loads, widths, 0.1);
}

/// It never stands but for drip times, in which the load falls to `drip`.
void set_one_level(const Rest& rest, double level, double drip, CompressorSearch& search) {
  search.levels_found = true;
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
  const bool is_swing = are_far_apart(classes);
  if (is_swing) {
    set_swing(classes, search);
    search.may_run_at_rest = draws_at_rest(classes, lowest_of(window, heater));
  } else {
    const double drip = lowest_after_heating(window, heater);
    const double level = time_quantile(rest.loads, rest.widths, 0.5);
    if (drip < 0.0 || level < 2.0 * std::max(drip, offset)) return search;
    set_one_level(rest, level, drip, search);
  }
  take_runs(window, inside, search);
  if (is_swing) take_cycles_beside_lasting_load(window, inside, search);
  settle(search);
  search.speed_varies = speed_varies(window, inside, search.off_threshold);
  search.never_stops = !is_swing || rests_at_heatings_alone(window, heater, search.runs);
  // One speed draws up to a quarter more on a coil that was heated; an inverter speeds up (common practice, no source).
  constexpr double most_of_one_speed = 1.35;
  search.is_modulated = search.is_modulated || draw_behind_heatings(window, heater, inside, search) > most_of_one_speed;
  return search;
}

}  // namespace ohmwright::cycles
