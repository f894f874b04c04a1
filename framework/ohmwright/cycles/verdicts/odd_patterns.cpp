#include <algorithm>
#include <cmath>
#include <vector>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/verdicts/odd_patterns.hpp>

namespace ohmwright::cycles {

namespace {

/// Fewer may be chance (common practice, no source).
constexpr std::size_t fewest_beats = 4;
constexpr std::size_t fewest_before_step = 3;
constexpr std::size_t fewest_after_step = 4;

/// Intervals in order, 0 for one in which a defrost may hide.
std::vector<double> intervals_of(const LogAnalysis& analysis) {
  std::vector<double> intervals;
  for (const Defrost& defrost : analysis.defrosts)
    if (defrost.interval_second)
      intervals.push_back(defrost.gap_in_interval_second > 0.0 ? 0.0 : *defrost.interval_second);
  return intervals;
}

/// Whether all that was taken for a defrost draws as one heater does: a kettle on the meter keeps its own beat.
bool draw_alike(const LogAnalysis& analysis) {
  constexpr double unlike = 0.25;  // of the median (common practice, no source)
  std::vector<double> loads;
  for (const Defrost& defrost : analysis.defrosts)
    if (defrost.heater_is_seen && defrost.heater_load > 0.0) loads.push_back(defrost.heater_load);
  const double usual = median_of(loads);
  return std::none_of(loads.begin(), loads.end(), [&](double load) { return std::abs(load - usual) > unlike * usual; });
}

std::vector<double> heating_seconds(const LogAnalysis& analysis) {
  std::vector<double> seconds;
  for (const Defrost& defrost : analysis.defrosts)
    if (!defrost.is_cut && defrost.heater_is_seen) seconds.push_back(defrost.end_second - defrost.start_second);
  return seconds;
}

/// Two and more that a beat without an exception owes at the log's end; one may come yet.
void add_missed_at_the_end(const LogAnalysis& analysis, double tolerance_second, MissedBeats& beats) {
  constexpr double fewest = 2.0;
  const OpenInterval& since = analysis.after_last;
  const double owed = std::floor((since.second - since.unseen_second - tolerance_second) / beats.beat_second);
  if (owed < fewest) return;
  beats.missed += owed;
  beats.all += owed;
}

}  // namespace

std::optional<MissedBeats> missed_beats(const LogAnalysis& analysis) {
  const std::vector<double> intervals = intervals_of(analysis);
  if (intervals.size() < fewest_beats || !draw_alike(analysis)) return std::nullopt;
  MissedBeats beats;
  beats.beat_second = median_of(intervals);
  // Each edge lies anywhere within one row, and a row more is for a board that looks only now and then.
  const double tolerance_second = 3.0 * analysis.coverage.spacing_second;
  if (beats.beat_second < 20.0 * tolerance_second) return std::nullopt;
  double single = 0.0;
  double open = 0.0;  // missed since the last interval of one beat
  for (const double interval : intervals) {
    if (interval <= 0.0) continue;
    const double beats_in_it = std::round(interval / beats.beat_second);
    if (beats_in_it < 1.0 || std::abs(interval - beats_in_it * beats.beat_second) > tolerance_second)
      return std::nullopt;
    beats.all += beats_in_it;
    if (beats_in_it > 1.0) {
      open += beats_in_it - 1.0;
      continue;
    }
    ++single;
    beats.missed += open;
    open = 0.0;
  }
  beats.all -= open;
  add_missed_at_the_end(analysis, tolerance_second, beats);
  if (beats.missed < 1.0 || single < 3.0) return std::nullopt;
  return beats;
}

std::optional<std::size_t> step_to_one_length(const LogAnalysis& analysis) {
  const std::vector<double> seconds = heating_seconds(analysis);
  if (seconds.size() < fewest_before_step + fewest_after_step || !draw_alike(analysis)) return std::nullopt;
  const double last = seconds.back();
  const double tolerance_second =
      std::max(rows_of_one_length * analysis.coverage.spacing_second, share_of_one_length * last);
  if (tolerance_second > 0.1 * last) return std::nullopt;  // in rows so far apart all lengths look alike
  const auto is_as_last = [&](double second) { return std::abs(second - last) <= tolerance_second; };
  const auto same = std::find_if_not(seconds.rbegin(), seconds.rend(), is_as_last);
  const auto after = static_cast<std::size_t>(same - seconds.rbegin());
  const std::size_t before = seconds.size() - after;
  if (after < fewest_after_step || before < fewest_before_step) return std::nullopt;
  const auto [shortest, longest] = std::minmax_element(same, seconds.rend());
  const bool vary = *longest - *shortest > 2.0 * tolerance_second;
  const bool all_shorter = *longest < last - 3.0 * tolerance_second;
  // Rows may hide how they varied; no frost doubles the length from one defrost on and leaves it there.
  constexpr double surely_longer = 2.0;
  const bool is_step = vary || last > surely_longer * *longest;
  return is_step && all_shorter ? std::optional<std::size_t>(after) : std::nullopt;
}

}  // namespace ohmwright::cycles
