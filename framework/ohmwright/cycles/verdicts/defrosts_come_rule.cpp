#include <algorithm>
#include <string_view>
#include <utility>

#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::cycles {

namespace {

/// Past so many of its longest intervals a log that had defrosts leaves it open whether they still come.
constexpr double overdue_intervals = 2.5;

double longest_seen_interval(const LogAnalysis& analysis) {
  double longest = 0.0;
  for (const Defrost& defrost : analysis.defrosts)
    if (defrost.gap_in_interval_second <= 0.0) longest = std::max(longest, defrost.interval_second.value_or(0.0));
  return longest;
}

/// A wait that is too long for good controls: out of limits, or left open where one may have come unseen. False where
/// the wait is not too long.
bool condemns_wait(const JudgedLog& log, const DefrostWait& wait, std::string_view text, LogVerdict& verdict) {
  const double probability = probability_of_wait(wait);
  if (probability > 1.0 - log.confidence) return false;
  if (const std::string_view why = why_unseen(log); !why.empty()) {
    verdict = LogVerdict{verdict.rule, why, Outcome::undecided};
    return true;
  }
  verdict.outcome = Outcome::out_of_limits;
  verdict.text = text;
  verdict.meaning = ProbabilityMeaning::observed_if_within;
  verdict.probability = probability;
  verdict.arguments = {{"count", static_cast<double>(log.analysis.defrost_count)},
                       {"waited_second", wait.waited_second},
                       {"longest_interval_second", wait.longest_second}};
  verdict.symptoms = {"no-defrost"};
  return true;
}

/// With no defrost the whole log is an interval of which neither end is seen.
void judge_none_seen(const JudgedLog& log, LogVerdict& verdict) {
  const LogAnalysis& analysis = log.analysis;
  if (!analysis.has_load && !analysis.has_coil) {
    verdict.outcome = Outcome::undecided;  // the air of a cabinet may hardly show a defrost
    verdict.text = "cabinet-only";
    return;
  }
  const DefrostWait wait = wait_of(log, analysis.before_first);
  if (condemns_wait(log, wait, "none-seen", verdict)) return;
  verdict.outcome = Outcome::undecided;
  verdict.text = wait.waited_second - wait.doubt_second <= wait.longest_second ? "log-too-short" : "gaps-hide";
  verdict.arguments = {{"waited_second", wait.waited_second},
                       {"longest_interval_second", wait.longest_second},
                       {"hidden_share", wait.unseen_share}};
}

/// Where defrosts were seen: whether they came from the beginning on and to the end.
void judge_open_ends(const JudgedLog& log, LogVerdict& verdict) {
  const LogAnalysis& analysis = log.analysis;
  const double seen_longest = longest_seen_interval(analysis);
  for (const auto& [open, text] : {std::pair{&analysis.after_last, std::string_view("none-since")},
                                   std::pair{&analysis.before_first, std::string_view("none-before")}}) {
    if (condemns_wait(log, wait_of(log, *open), text, verdict)) return;
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
  verdict.arguments = {{"count", static_cast<double>(analysis.defrost_count)}};
  verdict.outcome = Outcome::undecided;
  if (!analysis.has_load && !analysis.has_coil) {
    verdict.text = "by-air-alone";  // what warms the air may be something else
    return verdict;
  }
  if (may_be_cooling_alone(analysis)) {
    verdict.text = "cools-or-heats";
    return verdict;
  }
  // Of the load such rows show no defrost for sure; a rise of the coil is one, whatever others went by.
  if (!analysis.has_coil && rows_step_over_heating(analysis))
    return LogVerdict{"defrosts-come", "rows-too-far", Outcome::undecided};
  verdict.outcome = Outcome::within_limits;
  verdict.text = "seen";
  judge_open_ends(log, verdict);
  return verdict;
}

}  // namespace ohmwright::cycles
