#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include <ohmwright/cycles/frost.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/verdicts/counted_interval.hpp>
#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/cycles/verdicts/extra_starts.hpp>
#include <ohmwright/cycles/verdicts/judged_intervals.hpp>
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

IntervalStand stand_of(Outcome outcome, bool is_past_most) {
  if (outcome == Outcome::within_limits) return IntervalStand::in_limits;
  if (outcome == Outcome::undecided) return IntervalStand::unsettled;
  return is_past_most ? IntervalStand::too_long : IntervalStand::too_short;
}

void judge_one(const JudgedLog& log, double value, double edge_second, CountedIntervals& counted) {
  const double least = log.ratings.interval_least_second.value_or(0.0);
  const double most = *log.ratings.interval_most_second;
  const std::array sources{ErrorSource{"row-interval", {}, Shape::normal}};
  Estimate second(value);
  second.add_term(0, edge_second);
  LogVerdict tried{"interval", ""};
  judge_quantity(log, {Dimension::duration, second, sources, least, most}, tried);
  const IntervalStand stand = stand_of(tried.outcome, value > most);
  ++counted.short_ones.all;
  if (stand == IntervalStand::too_short) ++counted.short_ones.odd;
  counted.shortest_second = std::min(counted.shortest_second, value);
  counted.longest_second = std::max(counted.longest_second, value);
  if (counted.short_ones.all > 1.0 && tried.probability >= counted.worst.probability) return;
  counted.worst = std::move(tried);
  counted.stand = stand;
}

CountedIntervals judged_by(bool is_running, const JudgedLog& log, const std::vector<BothCounts>& intervals) {
  CountedIntervals counted;
  counted.is_running = is_running;
  for (const BothCounts& one : intervals) {
    if (!is_running) judge_one(log, one.clock_second, clock_edge(log), counted);
    if (is_running && one.running_second)
      judge_one(log, *one.running_second, running_edge(log, *one.running_second), counted);
  }
  return counted;
}

/// Median running between two defrosts, of those of which it was logged [s].
double usual_running(const std::vector<BothCounts>& intervals) {
  std::vector<double> all;
  for (const BothCounts& one : intervals)
    if (one.running_second) all.push_back(*one.running_second);
  return median_of(std::move(all));
}

/// One that came too early among others that did not: somebody may have started it by hand.
bool is_single_one(const JudgedLog& log, const CountedIntervals& counted) {
  const bool is_chance =
      decide_observed(probability_of_as_many(counted.short_ones), log.confidence) != Outcome::out_of_limits;
  return counted.short_ones.odd < 2.0 || is_chance;
}

/// Whether the usual interval by the clock is itself surely shorter than rated: then nobody started it by hand.
bool beats_too_often(const JudgedLog& log, const std::vector<BothCounts>& intervals) {
  std::vector<double> seconds;
  for (const BothCounts& one : intervals) seconds.push_back(one.clock_second);
  CountedIntervals usual;
  judge_one(log, median_of(std::move(seconds)), clock_edge(log), usual);
  return usual.stand == IntervalStand::too_short;
}

/// Short ones that somebody started: a single one among others, or such as leave the clock's beat as it is.
bool were_started_by_hand(const JudgedLog& log, const CountedIntervals& counted,
                          const std::vector<BothCounts>& intervals) {
  return is_single_one(log, counted) || (!counted.is_running && !beats_too_often(log, intervals) &&
                                         keep_a_beat_beside_extra_starts(intervals, clock_edge(log)));
}

/// By the count that the ratings name. What looks too short by the running alone is judged by the clock where the log
/// shows that the control goes by it, and left open where it shows neither: few data sheets say which of the two is
/// counted, and an hour by the clock holds less than one of running. What is too long by the running is so by the
/// clock, too.
CountedIntervals judged_by_its_count(const JudgedLog& log, const std::vector<BothCounts>& intervals) {
  CountedIntervals counted = judged_by(log.ratings.interval_counts_running, log, intervals);
  if (!counted.is_running || counted.stand != IntervalStand::too_short) return counted;
  CountedIntervals by_clock = judged_by(false, log, intervals);
  // One that was started by hand is short by the clock, too, and takes nothing from the beat of the others.
  if (by_clock.stand == IntervalStand::too_short && !were_started_by_hand(log, by_clock, intervals)) return counted;
  const ShownCount shown = shown_count(intervals, clock_edge(log), running_edge(log, usual_running(intervals)));
  if (shown == ShownCount::clock) return by_clock;
  constexpr double fewest_others = 2.0;  // beside which one looks odd
  const bool is_odd_one = counted.short_ones.odd <= 1.0 && counted.short_ones.all > fewest_others;
  if (shown == ShownCount::untold && !is_odd_one) counted.stand = IntervalStand::count_untold;
  return counted;
}

}  // namespace

bool is_out(IntervalStand stand) {
  return stand == IntervalStand::too_long || stand == IntervalStand::too_short || stand == IntervalStand::ends_open;
}

CountedIntervals judged_intervals(const JudgedLog& log) {
  const std::vector<BothCounts> intervals = seen_intervals(log.analysis);
  CountedIntervals counted = judged_by_its_count(log, intervals);
  const std::optional<double> open = log.analysis.defrost_count > 0 ? open_interval_past_rating(log) : std::nullopt;
  if (!counted.any() && !open) return counted;
  if (counted.stand == IntervalStand::too_short && were_started_by_hand(log, counted, intervals))
    counted.stand = IntervalStand::one_too_short;
  if (open && !is_out(counted.stand)) {
    counted.stand = IntervalStand::ends_open;
    counted.longest_second = *open;
    counted.shortest_second = std::min(counted.shortest_second, *open);
    counted.is_running = log.ratings.interval_counts_running;
  }
  // Between two that were seen one may have come unseen; what draws like a compressor is no defrost for sure.
  const bool may_be_parted = counted.stand != IntervalStand::too_short && why_unseen(log) != WhyUnseen::nothing;
  if (is_out(counted.stand) && (may_be_parted || may_be_cooling_alone(log.analysis)))
    counted.stand = IntervalStand::may_be_unseen;
  return counted;
}

}  // namespace ohmwright::cycles
