#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <vector>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/verdicts/counted_interval.hpp>
#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/cycles/verdicts/odd_ones.hpp>
#include <ohmwright/cycles/verdicts/odd_patterns.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::cycles {

namespace {

/// Standard uncertainty of an interval's two edges by the clock [s].
double clock_edge(const JudgedLog& log) { return duration_uncertainty(log.analysis.coverage.spacing_second); }

/// By the compressor's running, each run brings its own two edges.
double running_edge(const JudgedLog& log, double running_second) {
  const double run = std::max(log.analysis.typical_run_second.value_or(3600.0), 60.0);
  return clock_edge(log) * std::sqrt(std::max(1.0, running_second / run));
}

std::vector<BothCounts> seen_intervals(const LogAnalysis& analysis) {
  std::vector<BothCounts> intervals;
  for (const Defrost& defrost : analysis.defrosts)
    if (defrost.interval_second && defrost.gap_in_interval_second <= 0.0)
      intervals.push_back({*defrost.interval_second, defrost.interval_running_second});
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

/// What all intervals say by one count.
struct CountedIntervals {
  LogVerdict verdict;  ///< of the one that lies worst
  OddOnes short_ones;  ///< surely shorter than the least
  double shortest_second = std::numeric_limits<double>::infinity();
  double longest_second = 0.0;
  bool is_running = false;

  bool any() const { return short_ones.all > 0.0; }
  bool is_too_short() const { return verdict.text == "too-short"; }
};

void judge_one(const JudgedLog& log, double value, double edge_second, CountedIntervals& counted) {
  const double least = log.ratings.interval_least_second.value_or(0.0);
  const double most = *log.ratings.interval_most_second;
  const std::array sources{ErrorSource{"row-interval", {}, Shape::normal}};
  Estimate second(value);
  second.add_term(0, edge_second);
  LogVerdict tried{"interval", "in-limits"};
  judge_quantity(log, {Dimension::duration, second, sources, least, most}, tried);
  tried.text = tried.outcome == Outcome::within_limits ? "in-limits"
               : tried.outcome == Outcome::undecided   ? "unsettled"
               : value > most                          ? "too-long"
                                                       : "too-short";
  ++counted.short_ones.all;
  if (tried.text == "too-short") ++counted.short_ones.odd;
  counted.shortest_second = std::min(counted.shortest_second, value);
  counted.longest_second = std::max(counted.longest_second, value);
  if (counted.short_ones.all <= 1.0 || tried.probability < counted.verdict.probability) counted.verdict = tried;
}

CountedIntervals judged_by(bool is_running, const JudgedLog& log, const std::vector<BothCounts>& intervals) {
  CountedIntervals counted;
  counted.verdict = LogVerdict{"interval", "none-whole"};
  counted.is_running = is_running;
  for (const BothCounts& one : intervals) {
    if (!is_running) judge_one(log, one.clock_second, clock_edge(log), counted);
    if (is_running && one.running_second)
      judge_one(log, *one.running_second, running_edge(log, *one.running_second), counted);
  }
  return counted;
}

/// By the count that the ratings name. What looks too short by the running alone is judged by the clock where the log
/// shows that the control goes by it, and left open where it shows neither: few data sheets say which of the two is
/// counted, and an hour by the clock holds less than one of running. What is too long by the running is so by the
/// clock, too.
CountedIntervals judged_by_its_count(const JudgedLog& log, const std::vector<BothCounts>& intervals) {
  CountedIntervals counted = judged_by(log.ratings.interval_counts_running, log, intervals);
  if (!counted.is_running || !counted.is_too_short()) return counted;
  CountedIntervals by_clock = judged_by(false, log, intervals);
  if (by_clock.is_too_short()) return counted;
  const double running = median_of([&] {
    std::vector<double> all;
    for (const BothCounts& one : intervals) all.push_back(one.running_second.value_or(0.0));
    return all;
  }());
  const ShownCount shown = shown_count(intervals, clock_edge(log), running_edge(log, running));
  if (shown == ShownCount::clock) return by_clock;
  constexpr double fewest_others = 2.0;  // beside which one looks odd
  const bool is_odd_one = counted.short_ones.odd <= 1.0 && counted.short_ones.all > fewest_others;
  if (shown == ShownCount::untold && !is_odd_one)
    counted.verdict = LogVerdict{"interval", "count-untold", Outcome::undecided};
  return counted;
}

/// One that came too early among others that did not: somebody may have started it by hand.
void leave_single_one_open(const JudgedLog& log, CountedIntervals& counted) {
  if (!counted.is_too_short()) return;
  const bool is_chance =
      decide_observed(probability_of_as_many(counted.short_ones), log.confidence) != Outcome::out_of_limits;
  if (counted.short_ones.odd >= 2.0 && !is_chance) return;
  counted.verdict = LogVerdict{"interval", "one-too-short", Outcome::undecided, counted.short_ones.arguments()};
}

LogVerdict judge_rated_interval(const JudgedLog& log) {
  LogVerdict verdict{"interval", "no-ratings"};
  const LogRatings& ratings = log.ratings;
  if (!ratings.interval_most_second) return verdict;
  CountedIntervals counted = judged_by_its_count(log, seen_intervals(log.analysis));
  const std::optional<double> open = log.analysis.defrost_count > 0 ? open_interval_past_rating(log) : std::nullopt;
  if (!counted.any() && !open) {
    verdict.text = "none-whole";
    return verdict;
  }
  leave_single_one_open(log, counted);
  verdict = counted.verdict;
  if (open && verdict.outcome != Outcome::out_of_limits) {
    verdict = LogVerdict{"interval", "ends-open", Outcome::out_of_limits};
    counted.longest_second = *open;
    counted.shortest_second = std::min(counted.shortest_second, *open);
    counted.is_running = ratings.interval_counts_running;
  }
  // Between two that were seen one may have come unseen; what draws like a compressor is no defrost for sure.
  const bool may_be_parted = verdict.text != "too-short" && !why_unseen(log).empty();
  if (verdict.outcome == Outcome::out_of_limits && (may_be_parted || may_be_cooling_alone(log.analysis)))
    return LogVerdict{"interval", "may-be-unseen", Outcome::undecided};
  for (const LogArgument& argument :
       {LogArgument{"shortest_second", counted.shortest_second}, LogArgument{"longest_second", counted.longest_second},
        LogArgument{"least_second", ratings.interval_least_second.value_or(0.0)},
        LogArgument{"most_second", *ratings.interval_most_second}})
    verdict.arguments.push_back(argument);
  if (counted.is_running) verdict.arguments.push_back({"counts_running", 1.0});
  return verdict;
}

}  // namespace

LogVerdict judge_interval(const JudgedLog& log) {
  LogVerdict verdict = judge_rated_interval(log);
  const bool is_settled = verdict.outcome == Outcome::out_of_limits || verdict.text == "may-be-unseen";
  if (is_settled || may_be_cooling_alone(log.analysis) || !why_unseen(log).empty()) return verdict;
  const std::optional<MissedBeats> beats = missed_beats(log.analysis);
  if (!beats) return verdict;
  return {"interval",
          "misses-beats",
          Outcome::undecided,
          {{"count", beats->missed}, {"all", beats->all}, {"beat_second", beats->beat_second}}};
}

}  // namespace ohmwright::cycles
