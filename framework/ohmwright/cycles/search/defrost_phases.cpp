#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/cycles/search/defrost_phases.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double plateau_reach_kelvin = 3.0;  ///< a sensor beside the coil lags: the plateau may stand this far off
constexpr double longest_fall_second = 1800.0;

std::size_t sample_at(const Window& window, double second) {
  const auto at = std::upper_bound(window.start.begin(), window.start.end(), second);
  return at == window.start.begin() ? 0 : static_cast<std::size_t>(at - window.start.begin()) - 1;
}

/// The band of temperature, near the melting point, in which the coil stays longest while it is heated.
struct Plateau {
  double centre_kelvin = 0.0;
  double start_second = 0.0;
  double second = 0.0;
  bool found = false;
};

Plateau plateau_between(const Window& window, std::size_t begin, std::size_t end, double noise) {
  const double band = std::max(1.2, 5.0 * noise);
  Plateau best;
  constexpr int steps = 15;  // to each side
  for (int step = -steps; step <= steps; ++step) {
    const double centre = melting_point_kelvin + plateau_reach_kelvin * step / steps;
    double start = -1.0;
    double stop = -1.0;
    double inside = 0.0;
    for (std::size_t i = begin; i < end; ++i) {
      if (std::abs(window.coil[i] - centre) > band / 2.0) continue;
      if (start < 0.0) start = window.start[i];
      stop = window.start[i];
      inside += window.width[i];
    }
    // Of bands that hold as much, the one nearer to the melting point.
    const bool nearer =
        best.found && std::abs(centre - melting_point_kelvin) < std::abs(best.centre_kelvin - melting_point_kelvin);
    if (inside > best.second + 1e-9 || (nearer && inside > 0.999 * best.second))
      best = {centre, start, inside, inside > 0.0};
    (void)stop;
  }
  if (!best.found) return best;
  // Centre on what the band holds, then subtract what the mere passage through it takes.
  double sum = 0.0;
  double time = 0.0;
  for (std::size_t i = begin; i < end; ++i)
    if (std::abs(window.coil[i] - best.centre_kelvin) <= band / 2.0) {
      sum += window.coil[i] * window.width[i];
      time += window.width[i];
    }
  best.centre_kelvin = sum / time;
  const double risen_below = best.centre_kelvin - band / 2.0 - window.coil[begin];
  const double before_second = best.start_second - window.start[begin];
  const double slope = before_second > 0.0 && risen_below > 0.0 ? risen_below / before_second : 0.0;
  const double peak = *std::max_element(window.coil.begin() + static_cast<std::ptrdiff_t>(begin),
                                        window.coil.begin() + static_cast<std::ptrdiff_t>(end));
  const double passes = peak > best.centre_kelvin + band ? 1.0 : 0.5;  // in and out, or only in
  const double passage = slope > 0.0 ? passes * band / slope : 0.0;
  const bool stands_out =
      best.second > 2.5 * passage && best.second - passage > std::max(60.0, 1.5 * window.spacing_second);
  best.second = std::max(0.0, best.second - passage);
  best.start_second += slope > 0.0 ? 0.5 * band / slope : 0.0;
  best.found = stands_out;
  return best;
}

/// How fast the coil warmed in the last minutes of a heating, samples [begin, end): the greatest slope over a minute or
/// two, for the last row may lie behind its end, and behind its steepest where a rise is all that shows it. Nothing
/// where rows are too few.
std::optional<double> slope_at_end(const Window& window, std::size_t begin, std::size_t end, bool heater_is_seen) {
  constexpr double over_second = 120.0;
  constexpr double rise_rounds_second = 300.0;
  constexpr std::size_t fewest = 8;
  if (end < begin + fewest) return std::nullopt;
  const double within_second =
      heater_is_seen ? 1.5 * window.spacing_second : std::max(rise_rounds_second, 2.5 * window.spacing_second);
  std::optional<double> greatest;
  for (std::size_t last = end - 1; last > begin; --last) {
    if (window.start[end - 1] - window.start[last] > within_second) break;
    std::size_t first = last - 1;
    while (first > begin && window.start[last] - window.start[first] < over_second) --first;
    const double slope = (window.coil[last] - window.coil[first]) / (window.start[last] - window.start[first]);
    greatest = std::max(greatest.value_or(0.0), slope);
  }
  return greatest;
}

}  // namespace

void describe_coil(const Window& window, Defrost& defrost) {
  if (window.coil.empty()) return;
  defrost.has_coil = true;
  const std::size_t begin = sample_at(window, defrost.start_second);
  const std::size_t end = std::max(begin + 1, sample_at(window, defrost.end_second - 1e-6) + 1);
  std::size_t peak = begin;
  double lasting = window.coil[begin];
  for (std::size_t i = begin; i < window.size() && window.start[i] < defrost.end_second + 300.0 + window.spacing_second;
       ++i) {
    if (window.coil[i] > window.coil[peak]) peak = i;
    if (i > begin) lasting = std::max(lasting, std::min(window.coil[i], window.coil[i - 1]));
  }
  defrost.lasting_peak_kelvin = lasting;
  const auto warmest = [&](std::size_t i) { return static_cast<double>(window.coil_warmest[i]); };
  defrost.peak_kelvin = warmest(peak);
  defrost.peak_second = window.start[peak];
  // At the end: the warmest about it, since the edge lies within a sample, and afterwards the coil only cools.
  const std::size_t last = std::min(end, window.size()) - 1;
  double end_kelvin = warmest(last);
  for (std::size_t i = last + 1; i < window.size() && window.gap_after[i - 1] == 0; ++i) {
    if (window.start[i] > defrost.end_second + std::min(60.0, 1.5 * window.spacing_second)) break;
    end_kelvin = std::max(end_kelvin, warmest(i));
  }
  defrost.end_kelvin = end_kelvin;
  defrost.end_slope_kelvin_per_second = slope_at_end(window, begin, last + 1, defrost.heater_is_seen);
  const double noise = window.coil_noise;
  const double rise = window.coil[peak] - window.coil[begin];
  defrost.rise_is_seen = rise > std::max(2.0, 6.0 * noise);
  if (end - begin < 3) return;
  const Plateau plateau = plateau_between(window, begin, end, noise);
  if (!plateau.found) return;
  defrost.plateau_start_second = plateau.start_second;
  defrost.plateau_second = plateau.second;
  defrost.plateau_kelvin = plateau.centre_kelvin;
  defrost.plateau_uncertainty_second = duration_uncertainty(window.spacing_second);
}

void weigh_frost(const LogRatings& ratings, double spacing_second, bool load_is_current, Defrost& defrost) {
  if (load_is_current || !defrost.heater_is_seen || defrost.plateau_second <= 0.0) return;
  const double power = defrost.heater_load;
  defrost.frost = frost_from_plateau({power, power * ratings.power_uncertainty_ratio},
                                     {ratings.melting_share, ratings.melting_share_uncertainty},
                                     {defrost.plateau_second, duration_uncertainty(spacing_second)});
}

void describe_pause(const std::vector<CompressorRun>& runs, double spacing_second, Defrost& defrost) {
  const double from = defrost.end_second - 1.5 * spacing_second;
  const auto next =
      std::find_if(runs.begin(), runs.end(), [&](const CompressorRun& run) { return run.start_second >= from; });
  if (next == runs.end() || next->start_second - defrost.end_second > 2.0 * longest_fall_second || !next->start_is_seen)
    return;
  defrost.drip_second = std::max(0.0, next->start_second - defrost.end_second);
  if (next->end_is_seen) defrost.recovery_second = next->end_second - next->start_second;
}

}  // namespace ohmwright::cycles
