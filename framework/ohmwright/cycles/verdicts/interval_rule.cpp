#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/cycles/verdicts/defrost_wait.hpp>

namespace ohmwright::cycles {

namespace {

/// An interval that the log shows, with its standard uncertainty [s].
struct SeenInterval {
  double second = 0.0;
  double uncertainty_second = 0.0;
};

std::vector<SeenInterval> seen_intervals(const JudgedLog& log) {
  std::vector<SeenInterval> intervals;
  const double edges = duration_uncertainty(log.analysis.coverage.spacing_second);
  const double run = std::max(log.analysis.typical_run_second.value_or(3600.0), 60.0);
  for (const Defrost& defrost : log.analysis.defrosts) {
    const std::optional<double>& value =
        log.ratings.interval_counts_running ? defrost.interval_running_second : defrost.interval_second;
    if (!value || defrost.gap_in_interval_second > 0.0) continue;
    // Each run of the compressor brings its own two edges.
    const double edges_in_it = log.ratings.interval_counts_running ? std::max(1.0, *value / run) : 1.0;
    intervals.push_back({*value, edges * std::sqrt(edges_in_it)});
  }
  return intervals;
}

/// An end of the log that lasts for longer than the rated interval: the interval is at least so long.
std::optional<double> open_interval_past_rating(const JudgedLog& log) {
  for (const OpenInterval* open : {&log.analysis.after_last, &log.analysis.before_first}) {
    const DefrostWait wait = wait_of(log, *open);
    if (wait.is_rated && probability_of_wait(wait) <= 1.0 - log.confidence) return wait.waited_second;
  }
  return std::nullopt;
}

}  // namespace

LogVerdict judge_interval(const JudgedLog& log) {
  LogVerdict verdict{"interval", "no-ratings"};
  const LogRatings& ratings = log.ratings;
  if (!ratings.interval_most_second) return verdict;
  const std::vector<SeenInterval> intervals = seen_intervals(log);
  const std::optional<double> open = log.analysis.defrost_count > 0 ? open_interval_past_rating(log) : std::nullopt;
  if (intervals.empty() && !open) {
    verdict.text = "none-whole";
    return verdict;
  }
  const double least = ratings.interval_least_second.value_or(0.0);
  const double most = *ratings.interval_most_second;
  const std::array sources{ErrorSource{"row-interval", {}, Shape::normal}};
  double shortest = std::numeric_limits<double>::infinity();
  double longest = 0.0;
  verdict.probability = 2.0;
  for (const SeenInterval& one : intervals) {
    shortest = std::min(shortest, one.second);
    longest = std::max(longest, one.second);
    Estimate second(one.second);
    second.add_term(0, one.uncertainty_second);
    LogVerdict tried{"interval", "in-limits"};
    judge_quantity(log, {Dimension::duration, second, sources, least, most}, tried);
    if (tried.probability >= verdict.probability) continue;
    tried.text = tried.outcome == Outcome::within_limits ? "in-limits"
                 : tried.outcome == Outcome::undecided   ? "unsettled"
                 : one.second > most                     ? "too-long"
                                                         : "too-short";
    verdict = tried;
  }
  if (open && verdict.outcome != Outcome::out_of_limits) {
    verdict = LogVerdict{"interval", "ends-open", Outcome::out_of_limits};
    longest = *open;
    shortest = std::min(shortest, *open);
  }
  // Between two that were seen one may have come unseen; what draws like a compressor is no defrost for sure.
  const bool may_be_parted = verdict.text != "too-short" && !why_unseen(log).empty();
  if (verdict.outcome == Outcome::out_of_limits && (may_be_parted || may_be_cooling_alone(log.analysis)))
    return LogVerdict{"interval", "may-be-unseen", Outcome::undecided};
  verdict.arguments = {
      {"shortest_second", shortest}, {"longest_second", longest}, {"least_second", least}, {"most_second", most}};
  return verdict;
}

}  // namespace ohmwright::cycles
