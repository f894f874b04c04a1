#include <algorithm>

#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::cycles {

namespace {

/// The rarest defrosts that are known (common practice, no source).
constexpr double longest_known_interval_second = 54.0 * 3600.0;

/// Of the whole defrosts to which it applies, how many are odd.
struct OddOnes {
  double all = 0.0;
  double odd = 0.0;
};

/// Most of them odd is a fault; a few may be a door or a second load.
Outcome outcome_of(const OddOnes& count) {
  if (count.odd == 0.0) return Outcome::within_limits;
  return 2.0 * count.odd >= count.all ? Outcome::out_of_limits : Outcome::undecided;
}

std::vector<LogArgument> counted(const OddOnes& count) { return {{"count", count.odd}, {"all", count.all}}; }

}  // namespace

LogVerdict judge_defrosts_come(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  LogVerdict verdict{"defrosts-come", "no-rows"};
  if (analysis.coverage.span_second <= 0.0) return verdict;
  if (analysis.defrost_count > 0) {
    verdict.outcome = Outcome::within_limits;
    verdict.text = "seen";
    verdict.arguments = {{"count", static_cast<double>(analysis.defrost_count)}};
    return verdict;
  }
  const bool by_running = log.ratings.interval_counts_running && analysis.run_share.has_value();
  const double waited = by_running ? analysis.running_second : analysis.coverage.span_second;
  const double longest = log.ratings.interval_most_second.value_or(longest_known_interval_second);
  // A defrost that comes at least every `longest` seconds, at any phase, falls into the log with waited/longest, and
  // into what the log saw of its span with one less the hidden share.
  const double falls_in = std::min(1.0, waited / longest);
  verdict.probability = 1.0 - falls_in * (1.0 - analysis.coverage.hidden_share);
  verdict.meaning = ProbabilityMeaning::observed_if_within;
  verdict.arguments = {{"waited_second", waited},
                       {"longest_interval_second", longest},
                       {"hidden_share", analysis.coverage.hidden_share}};
  if (!analysis.has_load && !analysis.has_coil) {
    verdict.outcome = Outcome::undecided;  // the air of a cabinet may hardly show a defrost
    verdict.text = "cabinet-only";
    return verdict;
  }
  verdict.outcome = decide_observed(verdict.probability, log.confidence);
  if (verdict.outcome == Outcome::out_of_limits) {
    verdict.text = "none-seen";
    verdict.symptoms = {"no-defrost"};
  } else {
    verdict.text = falls_in < 1.0 ? "log-too-short" : "gaps-hide";
  }
  return verdict;
}

LogVerdict judge_heater_warms_coil(const JudgedLog& log) {
  LogVerdict verdict{"heater-warms-coil", log.analysis.has_coil ? "no-heating" : "no-coil"};
  OddOnes count;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (!defrost.has_coil || !defrost.heater_is_seen || defrost.is_cut) continue;
    ++count.all;
    if (!defrost.rise_is_seen) ++count.odd;
  }
  if (count.all == 0.0) return verdict;
  verdict.outcome = outcome_of(count);
  verdict.text = count.odd == 0.0 ? "warms" : "no-rise";
  verdict.arguments = counted(count);
  return verdict;
}

LogVerdict judge_heat_comes_from_heater(const JudgedLog& log) {
  LogVerdict verdict{"heat-comes-from-heater", log.analysis.has_load ? "no-rise" : "no-load"};
  if (!log.analysis.has_load) return verdict;
  OddOnes count;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (!defrost.rise_is_seen || defrost.is_cut) continue;
    ++count.all;
    if (!defrost.heater_is_seen) ++count.odd;
  }
  if (count.all == 0.0) return verdict;
  verdict.outcome = outcome_of(count);
  verdict.text = count.odd == 0.0 ? "heater-draws" : "no-heater";
  verdict.arguments = counted(count);
  return verdict;
}

LogVerdict judge_defrost_end(const JudgedLog& log) {
  LogVerdict verdict{"defrost-end", "not-shown"};
  OddOnes count;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (defrost.cause == EndCause::unknown) continue;
    ++count.all;
    if (defrost.cause == EndCause::time_limit) ++count.odd;
  }
  if (count.all == 0.0) return verdict;
  verdict.arguments = counted(count);
  verdict.text = count.odd == 0.0 ? "by-temperature" : "by-time";
  // One of several may have been a door that stood open before it.
  verdict.outcome = count.odd == 1.0 && count.all >= 4.0 ? Outcome::undecided
                    : count.odd == 0.0                   ? Outcome::within_limits
                                                         : Outcome::out_of_limits;
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"long-defrost"};
  return verdict;
}

}  // namespace ohmwright::cycles
