#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/cycles/heat/heat_columns.hpp>
#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/search/window.hpp>
#include <ohmwright/cycles/telling_rows.hpp>
#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/cycles/weakest_heater.hpp>

namespace ohmwright::cycles {

namespace {

/// The rarest by the compressor's running, by which controls of variable intervals count: the longest that the public
/// test procedure takes where none is stated (10 CFR 430, subpart B, appendix A), and the usual one that it makes of
/// it.
constexpr double longest_running_second = 96.0 * 3600.0;
constexpr double usual_running_second = 24.0 * 3600.0;

/// The longest that may be waited for where no interval is rated: that, or a tenth more than the log's own longest, or
/// what a timer of twelve hours of running (the longest shipped, common practice, no source) takes at its run share.
double longest_unrated_interval(const LogAnalysis& analysis) {
  constexpr double longest_of_timers_second = 12.0 * 3600.0;
  constexpr double least_share = 0.05;
  constexpr double scatter = 1.1;
  double longest = rarest_interval_second;
  for (const Defrost& one : analysis.defrosts)
    if (one.gap_in_interval_second <= 0.0) longest = std::max(longest, scatter * one.interval_second.value_or(0.0));
  if (analysis.run_share && *analysis.run_share > least_share)
    longest = std::max(longest, longest_of_timers_second / *analysis.run_share);
  return longest;
}

/// Whether most of some intervals lie about their middle one.
bool lie_close(const std::vector<double>& seconds) {
  constexpr std::size_t fewest = 3;
  constexpr double close = 0.03;  // of the middle one (common practice, no source)
  if (seconds.size() < fewest) return false;
  const double middle = median_of(seconds);
  std::vector<double> apart;
  for (const double second : seconds) apart.push_back(std::abs(second - middle));
  return median_of(std::move(apart)) <= close * middle;
}

/// Whether defrosts came in the beat of a timer, by the clock or by the compressor's running: such a one does not wait.
bool keep_a_beat(const LogAnalysis& analysis) {
  std::vector<double> by_clock;
  std::vector<double> by_running;
  for (const Defrost& one : analysis.defrosts) {
    if (!one.interval_second || one.gap_in_interval_second > 0.0) continue;
    by_clock.push_back(*one.interval_second);
    if (one.interval_running_second) by_running.push_back(*one.interval_running_second);
  }
  return lie_close(by_clock) || lie_close(by_running);
}

/// Whether rows of the coil are so close that each of its rises shows.
bool coil_shows_rises(const LogAnalysis& analysis) {
  return analysis.has_coil && analysis.coverage.spacing_second <= farthest_telling_rows_second;
}

/// Whether the load alone tells of heatings: no coil was logged, or its rows step over its rises.
bool load_tells_alone(const LogAnalysis& analysis) { return analysis.has_load && !coil_shows_rises(analysis); }

/// The least that the heater may draw: rated, as the heatings that were seen, or the weakest known. Of watts rated at
/// one voltage the line makes less (P as V²).
double least_heater_load(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  const LogRatings& ratings = log.ratings;
  if (ratings.heater_watt && ratings.heater_volt > 0.0) {
    const double line = ratings.line_volt ? (*ratings.line_volt - ratings.line_half_width_volt) / ratings.heater_volt
                                          : lowest_line_share;
    if (analysis.load_is_current) return ratings.heater_watt->lower / ratings.heater_volt * line;
    return ratings.heater_watt->lower * line * line;
  }
  double least = 0.0;
  for (const Defrost& one : analysis.defrosts)
    if (one.heater_is_seen && !one.is_cut && (least == 0.0 || one.heater_load < least)) least = one.heater_load;
  if (least > 0.0) return least;
  return analysis.load_is_current ? weakest_heater_ampere : weakest_heater_watt;
}

/// Whether the compressor draws as much as that share of the heater may: a start draws a fifth more than the run
/// behind.
bool load_may_hide_heater(const JudgedLog& log, double share) {
  const LogAnalysis& analysis = log.analysis;
  if (analysis.runs.empty()) return false;
  std::vector<double> loads;
  for (const CompressorRun& run : analysis.runs) loads.push_back(static_cast<double>(run.mean_load));
  constexpr double clear_of_it = 1.3;
  return share * least_heater_load(log) < clear_of_it * median_of(std::move(loads));
}

/// A refrigerator's coil thaws in the pauses of its compressor, without a heater.
bool thaws_in_pauses(const LogAnalysis& analysis) {
  constexpr std::uint64_t fewest = 3;
  constexpr double often_second = 12.0 * 3600.0;
  const std::uint64_t others = analysis.coil_thaws - std::min(analysis.coil_thaws, analysis.defrost_count);
  return analysis.has_coil && others >= fewest &&
         static_cast<double>(others) * often_second > analysis.coverage.span_second;
}

/// How often rows far apart stood above all else for less than shows a heater.
bool heating_may_be_too_short(const LogAnalysis& analysis) {
  constexpr std::uint64_t fewest = 3;
  return analysis.short_stand_outs >= fewest;
}

/// Whether one heating can show in rows of the load where another does not: the shortest that was seen fills few.
bool may_miss_heatings(const LogAnalysis& analysis) {
  if (!load_tells_alone(analysis)) return false;
  return std::any_of(analysis.defrosts.begin(), analysis.defrosts.end(), [&](const Defrost& one) {
    return !one.is_cut && !fills_telling_rows(analysis, one.end_second - one.start_second);
  });
}

/// Why heatings may hide in a load that tells alone.
WhyUnseen why_load_hides(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  if (!load_tells_alone(analysis)) return WhyUnseen::nothing;
  if (analysis.one_level_second > 0.0 || analysis.heats_at_only_level) return WhyUnseen::cools_or_heats;
  constexpr double one_of_two = 0.5;
  if (load_may_hide_heater(log, 1.0)) return WhyUnseen::load_hides_heater;
  const bool was_seen = std::any_of(analysis.defrosts.begin(), analysis.defrosts.end(),
                                    [](const Defrost& one) { return one.heater_is_seen && !one.is_cut; });
  if (was_seen && !analysis.has_coil && load_may_hide_heater(log, one_of_two)) return WhyUnseen::load_hides_half;
  if (heating_may_be_too_short(analysis)) return WhyUnseen::too_short_to_show;
  return WhyUnseen::nothing;
}

}  // namespace

bool heatings_fill_few_rows(const LogAnalysis& analysis) {
  if (!analysis.has_load || analysis.has_coil) return false;
  std::vector<double> seconds;
  for (const Defrost& one : analysis.defrosts)
    if (one.heater_is_seen && !one.is_cut) seconds.push_back(one.end_second - one.start_second);
  return !seconds.empty() && !fills_telling_rows(analysis, median_of(std::move(seconds)));
}

bool rows_step_over_heating(const LogAnalysis& analysis) {
  constexpr double farthest_rows_of_load_second = 600.0;
  if (coil_shows_rises(analysis)) return false;
  const double farthest_second = analysis.has_load ? farthest_rows_of_load_second : farthest_telling_rows_second;
  return (analysis.has_load || analysis.has_coil) && analysis.coverage.spacing_second > farthest_second;
}

bool fills_telling_rows(const LogAnalysis& analysis, double second) {
  return second >= fewest_telling_rows * analysis.coverage.spacing_second;
}

bool thaws_in_a_freezer(const LogAnalysis& analysis) {
  const double second_of_thaws = static_cast<double>(analysis.coil_thaws) * oftener_than_controls_second;
  const bool are_thaws = coil_shows_rises(analysis) && thaws_in_pauses(analysis) &&
                         second_of_thaws > analysis.coverage.span_second &&
                         2 * analysis.defrost_count < analysis.coil_thaws;
  if (!are_thaws) return false;
  return analysis.has_cabinet ? analysis.cabinet_mean_kelvin.value_or(melting_point_kelvin) < freezing_air_kelvin
                              : is_coil_of_a_freezer(analysis);
}

std::optional<double> too_short_usual_interval(const JudgedLog& log) {
  constexpr double clearly_shorter = 0.97;
  constexpr std::size_t fewest = 5;
  const LogAnalysis& analysis = log.analysis;
  // A refrigerator's coil warms so in its pauses.
  if (!analysis.has_load && !is_coil_of_a_freezer(analysis)) return std::nullopt;
  std::vector<double> intervals;
  for (const Defrost& one : analysis.defrosts)
    if (one.interval_second && one.gap_in_interval_second <= 0.0) intervals.push_back(*one.interval_second);
  if (intervals.size() < fewest) return std::nullopt;
  const double usual = median_of(std::move(intervals));
  const double least =
      std::min(shortest_of_controls_second, log.ratings.interval_least_second.value_or(shortest_of_controls_second));
  return usual < clearly_shorter * least ? std::optional<double>(usual) : std::nullopt;
}

bool may_be_cooling_alone(const LogAnalysis& analysis) {
  if (!analysis.has_load || analysis.has_coil) return false;
  return analysis.one_level_second > 0.0 || analysis.heats_at_only_level ||
         find_finding(analysis.findings, "load-has-one-level") != nullptr;
}

WhyUnseen why_unseen(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  if (analysis.lasting_heat && analysis.lasting_heat->takes_over()) return WhyUnseen::heats_on;
  if (thaws_in_pauses(analysis)) return WhyUnseen::thaws_in_pauses;
  if (rows_step_over_heating(analysis) || may_miss_heatings(analysis)) return WhyUnseen::rows_too_far;
  const WhyUnseen why = why_load_hides(log);
  // A coil would show them: its rows are what is too far apart.
  return why != WhyUnseen::nothing && analysis.has_coil ? WhyUnseen::rows_too_far : why;
}

std::string_view text_of(WhyUnseen why) {
  switch (why) {
    case WhyUnseen::nothing:
      return "seen";
    case WhyUnseen::heats_on:
      return "heats-on";
    case WhyUnseen::thaws_in_pauses:
      return "thaws-in-pauses";
    case WhyUnseen::rows_too_far:
      return "rows-too-far";
    case WhyUnseen::load_hides_heater:
      return "load-hides-heater";
    case WhyUnseen::load_hides_half:
      return "load-hides-half";
    case WhyUnseen::too_short_to_show:
      return "too-short-to-show";
    case WhyUnseen::cools_or_heats:
      return "cools-or-heats";
  }
  return "";
}

DefrostWait wait_of(const JudgedLog& log, const OpenInterval& open) {
  const LogRatings& ratings = log.ratings;
  const bool is_rated = ratings.interval_most_second.has_value();
  const bool by_running = is_rated && ratings.interval_counts_running && open.running_second.has_value();
  // Run time that was not logged whole says nothing; then the rarest that is known counts, by the clock.
  const bool by_clock_rating = is_rated && !ratings.interval_counts_running;
  DefrostWait wait;
  wait.is_rated = by_running || by_clock_rating;
  wait.longest_second = wait.is_rated ? *ratings.interval_most_second : longest_unrated_interval(log.analysis);
  wait.counts_running = by_running;
  wait.waited_second = by_running ? *open.running_second : open.second;
  wait.unseen_share = open.second > 0.0 ? std::min(1.0, open.unseen_second / open.second) : 0.0;
  wait.doubt_second = 2.0 * duration_uncertainty(log.analysis.coverage.spacing_second);
  if (by_running)
    wait.doubt_second *=
        std::sqrt(std::max(1.0, wait.waited_second / std::max(60.0, log.analysis.typical_run_second.value_or(3600.0))));
  return wait;
}

std::optional<double> longest_running_of_slow_control(const JudgedLog& log, const OpenInterval& open) {
  const LogAnalysis& analysis = log.analysis;
  // Of a log that does not show the running, half of the time is taken for it.
  constexpr double unknown_share = 0.5;
  constexpr double scatter = 1.1;
  if (log.ratings.interval_most_second || keep_a_beat(analysis)) return std::nullopt;
  const double running =
      open.running_second.value_or((open.second - open.unseen_second) * analysis.run_share.value_or(unknown_share));
  // One that was seen to defrost does, however slow; of one that never was the usual wait is enough.
  const double enough = analysis.defrost_count > 0 ? longest_running_second : scatter * usual_running_second;
  return running > enough ? std::nullopt : std::optional<double>(longest_running_second);
}

double probability_of_wait(const DefrostWait& wait) {
  const double waited = wait.waited_second - wait.doubt_second;
  if (waited <= wait.longest_second) return 1.0;
  return std::pow(wait.unseen_share, std::floor(waited / wait.longest_second));
}

}  // namespace ohmwright::cycles
