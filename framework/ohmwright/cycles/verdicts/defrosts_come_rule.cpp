#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::cycles {

namespace {

/// The rarest defrosts that are known (common practice, no source).
constexpr double longest_known_interval_second = 54.0 * 3600.0;
/// Past so many of its longest intervals a log that had defrosts leaves it open whether they still come.
constexpr double overdue_intervals = 2.5;

double longest_seen_interval(const LogAnalysis& analysis) {
  double longest = 0.0;
  for (const Defrost& defrost : analysis.defrosts)
    if (defrost.gap_in_interval_second <= 0.0) longest = std::max(longest, defrost.interval_second.value_or(0.0));
  return longest;
}

/// The least that a defrost heater draws, where none is rated [W], and the highest line that it may be at [V]: common
/// practice, no source.
constexpr double weakest_heater_watt = 185.0;
constexpr double highest_line_volt = 240.0;

/// Rows further apart than this step over the shortest heating [s].
constexpr double longest_telling_spacing_second = 600.0;

bool rows_step_over_heating(const LogAnalysis& analysis) {
  return analysis.has_load && !analysis.has_coil && analysis.coverage.spacing_second > longest_telling_spacing_second;
}

/// Where the load alone is logged: whether the compressor draws as much as a heater may.
bool load_may_hide_heater(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  if (!analysis.has_load || analysis.has_coil || analysis.runs.empty()) return false;
  std::vector<double> loads;
  for (const CompressorRun& run : analysis.runs) loads.push_back(static_cast<double>(run.mean_load));
  const auto middle = loads.begin() + static_cast<std::ptrdiff_t>(loads.size() / 2);
  std::nth_element(loads.begin(), middle, loads.end());
  constexpr double clear_of_it = 1.15;
  double heater = log.ratings.heater_watt ? log.ratings.heater_watt->lower : weakest_heater_watt;
  if (analysis.load_is_current) heater /= highest_line_volt;
  return heater < clear_of_it * *middle;
}

/// A refrigerator's coil thaws in the pauses of its compressor, without a heater.
bool thaws_in_pauses(const LogAnalysis& analysis) {
  constexpr std::uint64_t fewest = 3;
  constexpr double often_second = 12.0 * 3600.0;
  return analysis.has_coil && analysis.coil_thaws >= fewest &&
         static_cast<double>(analysis.coil_thaws) * often_second > analysis.coverage.span_second;
}

/// Where the load alone is logged: how often rows far apart stood above all else for less than shows a heater.
bool heating_may_be_too_short(const LogAnalysis& analysis) {
  constexpr std::uint64_t fewest = 3;
  return analysis.has_load && !analysis.has_coil && analysis.short_stand_outs >= fewest;
}

/// Why a defrost may have come unseen, or need not come; empty where nothing speaks for it.
std::string_view why_unseen(const JudgedLog& log) {
  if (thaws_in_pauses(log.analysis)) return "thaws-in-pauses";
  if (rows_step_over_heating(log.analysis)) return "rows-too-far";
  if (!log.analysis.has_coil && log.analysis.one_level_second > 0.0) return "cools-or-heats";
  if (load_may_hide_heater(log)) return "load-hides-heater";
  if (heating_may_be_too_short(log.analysis)) return "too-short-to-show";
  return {};
}

void judge_none_seen(const JudgedLog& log, LogVerdict& verdict) {
  const LogAnalysis& analysis = log.analysis;
  const double stood = analysis.standstill ? analysis.standstill->second() : 0.0;
  const bool by_running = log.ratings.interval_counts_running && analysis.run_share.has_value();
  const double waited = by_running ? analysis.running_second : std::max(0.0, analysis.coverage.span_second - stood);
  const double longest = log.ratings.interval_most_second.value_or(longest_known_interval_second);
  verdict.probability = probability_of_none_seen(waited / longest, analysis.coverage.hidden_share);
  verdict.meaning = ProbabilityMeaning::observed_if_within;
  verdict.arguments = {{"waited_second", waited},
                       {"longest_interval_second", longest},
                       {"hidden_share", analysis.coverage.hidden_share}};
  if (!analysis.has_load && !analysis.has_coil) {
    verdict.outcome = Outcome::undecided;  // the air of a cabinet may hardly show a defrost
    verdict.text = "cabinet-only";
    return;
  }
  verdict.outcome = decide_observed(verdict.probability, log.confidence);
  const std::string_view why = why_unseen(log);
  if (verdict.outcome == Outcome::out_of_limits && !why.empty()) {
    verdict = LogVerdict{verdict.rule, why, Outcome::undecided};
    return;
  }
  if (verdict.outcome == Outcome::out_of_limits) {
    verdict.text = "none-seen";
    verdict.symptoms = {"no-defrost"};
  } else {
    verdict.text = waited < longest ? "log-too-short" : "gaps-hide";
  }
}

/// Where defrosts were seen: whether they came from the beginning on and to the end.
void judge_open_ends(const JudgedLog& log, LogVerdict& verdict) {
  const LogAnalysis& analysis = log.analysis;
  const double seen_longest = longest_seen_interval(analysis);
  for (const auto& [open, text] : {std::pair{&analysis.after_last, std::string_view("none-since")},
                                   std::pair{&analysis.before_first, std::string_view("none-before")}}) {
    const OpenWait wait = open_wait_of(log, *open);
    const double probability = probability_of_open_wait(wait);
    if (probability <= 1.0 - log.confidence && may_miss_heatings(analysis)) {
      verdict = LogVerdict{"defrosts-come", "rows-too-far", Outcome::undecided};
      return;
    }
    if (probability <= 1.0 - log.confidence) {
      verdict.outcome = Outcome::out_of_limits;
      verdict.text = text;
      verdict.meaning = ProbabilityMeaning::observed_if_within;
      verdict.probability = probability;
      verdict.arguments = {{"count", static_cast<double>(analysis.defrost_count)},
                           {"waited_second", wait.waited_second},
                           {"longest_interval_second", wait.longest_second}};
      verdict.symptoms = {"no-defrost"};
      return;
    }
    const double clock_waited = open->second - open->unseen_second;
    if (open == &analysis.after_last && seen_longest > 0.0 && clock_waited > overdue_intervals * seen_longest) {
      verdict.outcome = Outcome::undecided;
      verdict.text = "overdue";
      verdict.arguments = {{"count", static_cast<double>(analysis.defrost_count)},
                           {"waited_second", clock_waited},
                           {"longest_interval_second", seen_longest}};
      return;
    }
  }
}

}  // namespace

bool may_miss_heatings(const LogAnalysis& analysis) {
  constexpr double fewest_rows = 4.0;
  if (!analysis.has_load || analysis.has_coil) return false;
  return std::any_of(analysis.defrosts.begin(), analysis.defrosts.end(), [&](const Defrost& one) {
    return !one.is_cut && one.end_second - one.start_second < fewest_rows * analysis.coverage.spacing_second;
  });
}

OpenWait open_wait_of(const JudgedLog& log, const OpenInterval& open) {
  const LogRatings& ratings = log.ratings;
  const bool is_rated = ratings.interval_most_second.has_value();
  const bool by_running = is_rated && ratings.interval_counts_running && open.running_second.has_value();
  OpenWait wait;
  // Run time that was not logged whole says nothing; then the rarest that is known counts, by the clock.
  const bool by_clock_rating = is_rated && !ratings.interval_counts_running;
  wait.longest_second = by_running || by_clock_rating ? *ratings.interval_most_second : longest_known_interval_second;
  wait.is_rated = by_running || by_clock_rating;
  wait.waited_second = by_running ? *open.running_second : open.second;
  wait.unseen_share = open.second > 0.0 ? std::min(1.0, open.unseen_second / open.second) : 0.0;
  wait.doubt_second = 2.0 * duration_uncertainty(log.analysis.coverage.spacing_second);
  if (by_running)
    wait.doubt_second *=
        std::sqrt(std::max(1.0, wait.waited_second / std::max(60.0, log.analysis.typical_run_second.value_or(3600.0))));
  return wait;
}

double probability_of_none_seen(double intervals, double hidden_share) {
  const double whole = std::floor(intervals);
  return std::pow(hidden_share, whole) * (1.0 - (intervals - whole) * (1.0 - hidden_share));
}

double probability_of_open_wait(const OpenWait& wait) {
  const double waited = wait.waited_second - wait.doubt_second;
  if (waited <= wait.longest_second) return 1.0;
  // Each one that was due must have come unseen.
  return std::pow(wait.unseen_share, std::floor(waited / wait.longest_second));
}

LogVerdict judge_defrosts_come(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  LogVerdict verdict{"defrosts-come", "no-rows"};
  if (analysis.coverage.span_second <= 0.0) return verdict;
  if (!analysis.has_load && !analysis.has_coil && !analysis.has_cabinet) {
    verdict.text = "nothing-moves";
    return verdict;
  }
  if (analysis.defrost_count == 0) {
    judge_none_seen(log, verdict);
    return verdict;
  }
  if (!analysis.has_load && !analysis.has_coil) {
    verdict.outcome = Outcome::undecided;  // what warms the air may be something else
    verdict.text = "by-air-alone";
    verdict.arguments = {{"count", static_cast<double>(analysis.defrost_count)}};
    return verdict;
  }
  verdict.outcome = Outcome::within_limits;
  verdict.text = "seen";
  verdict.arguments = {{"count", static_cast<double>(analysis.defrost_count)}};
  if (rows_step_over_heating(analysis)) {
    verdict = LogVerdict{"defrosts-come", "rows-too-far", Outcome::undecided};
    return verdict;
  }
  judge_open_ends(log, verdict);
  return verdict;
}

}  // namespace ohmwright::cycles
