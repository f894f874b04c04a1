#include <optional>
#include <string_view>

#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/cycles/verdicts/judged_intervals.hpp>
#include <ohmwright/cycles/verdicts/odd_patterns.hpp>

namespace ohmwright::cycles {

namespace {

std::string_view text_of(IntervalStand stand) {
  switch (stand) {
    case IntervalStand::none_whole:
      return "none-whole";
    case IntervalStand::in_limits:
      return "in-limits";
    case IntervalStand::unsettled:
      return "unsettled";
    case IntervalStand::too_long:
      return "too-long";
    case IntervalStand::too_short:
      return "too-short";
    case IntervalStand::one_too_short:
      return "one-too-short";
    case IntervalStand::count_untold:
      return "count-untold";
    case IntervalStand::ends_open:
      return "ends-open";
    case IntervalStand::may_be_unseen:
      return "may-be-unseen";
  }
  return "";
}

/// The verdict in words. What was measured of the worst one belongs to it where that one alone decides.
LogVerdict verdict_of(const CountedIntervals& counted, const LogRatings& ratings) {
  LogVerdict verdict{"interval", text_of(counted.stand)};
  switch (counted.stand) {
    case IntervalStand::none_whole:
      return verdict;
    case IntervalStand::may_be_unseen:
      verdict.outcome = Outcome::undecided;
      return verdict;
    case IntervalStand::ends_open:
      verdict.outcome = Outcome::out_of_limits;
      break;
    case IntervalStand::one_too_short:
      verdict.arguments = counted.short_ones.arguments();
      verdict.outcome = Outcome::undecided;
      break;
    case IntervalStand::count_untold:
      verdict.outcome = Outcome::undecided;
      break;
    case IntervalStand::in_limits:
    case IntervalStand::unsettled:
    case IntervalStand::too_long:
    case IntervalStand::too_short:
      verdict = counted.worst;
      verdict.text = text_of(counted.stand);
  }
  for (const LogArgument& argument :
       {LogArgument{"shortest_second", counted.shortest_second}, LogArgument{"longest_second", counted.longest_second},
        LogArgument{"least_second", ratings.interval_least_second.value_or(0.0)},
        LogArgument{"most_second", *ratings.interval_most_second}})
    verdict.arguments.push_back(argument);
  if (counted.is_running) verdict.arguments.push_back({"counts_running", 1.0});
  return verdict;
}

bool no_defrost_hides(const JudgedLog& log) {
  return !may_be_cooling_alone(log.analysis) && why_unseen(log) == WhyUnseen::nothing;
}

}  // namespace

LogVerdict judge_interval(const JudgedLog& log) {
  CountedIntervals counted;
  LogVerdict verdict{"interval", "no-ratings"};
  if (log.ratings.interval_most_second) {
    counted = judged_intervals(log);
    verdict = verdict_of(counted, log.ratings);
  }
  // Rises of the air may be doors and warm food, and a defrost may make none.
  const bool is_by_air = !log.analysis.has_load && !log.analysis.has_coil;
  if (is_by_air && verdict.outcome == Outcome::out_of_limits)
    return question("interval", "by-air-alone",
                    {{"shortest_second", counted.shortest_second}, {"longest_second", counted.longest_second}});
  const bool is_settled = is_out(counted.stand) || counted.stand == IntervalStand::may_be_unseen;
  if (is_settled || !no_defrost_hides(log)) return verdict;
  const std::optional<MissedBeats> beats = missed_beats(log.analysis);
  if (!beats) return verdict;
  return question("interval", "misses-beats",
                  {{"count", beats->missed}, {"all", beats->all}, {"beat_second", beats->beat_second}});
}

}  // namespace ohmwright::cycles
