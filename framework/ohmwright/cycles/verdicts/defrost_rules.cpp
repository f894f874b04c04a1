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

/// Cold at the end, and no time limit explains it: it ended long before the rated one, or it had hardly begun to melt.
bool ended_too_early(const LogRatings& ratings, const Defrost& defrost) {
  constexpr double clearly_before = 0.9;  // of the time limit
  constexpr double hardly_melted = 0.2;   // of the heating
  const bool is_cold = defrost.ground == EndGround::still_melting || defrost.ground == EndGround::below_rated;
  if (!is_cold || defrost.is_cut) return false;
  const double heated = defrost.end_second - defrost.start_second;
  const double limit = ratings.time_limit_least_second.value_or(ratings.time_limit_second.value_or(0.0));
  if (limit > 0.0) return heated < clearly_before * limit;
  return defrost.ground == EndGround::still_melting && defrost.plateau_second < hardly_melted * heated;
}

/// A coil warmer than this holds no ice and goes on being heated (common practice, no source: sensors and thermostats
/// end defrosts at 5 to 24 degC, and the heater's own heat carries the coil some way on) [K].
double hottest_of_a_good_end(const LogRatings& ratings) {
  constexpr double unrated = 318.15;  // 45 degC
  constexpr double carried_on = 25.0;
  return ratings.end_temperature_kelvin ? *ratings.end_temperature_kelvin + carried_on : unrated;
}

/// Heats on though the coil is long clear: whatever ended it, it was too late.
void judge_too_hot(const JudgedLog& log, LogVerdict& verdict) {
  OddOnes hot;
  double peak = 0.0;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (!defrost.peak_kelvin) continue;
    ++hot.all;
    if (*defrost.peak_kelvin <= hottest_of_a_good_end(log.ratings)) continue;
    ++hot.odd;
    peak = std::max(peak, *defrost.peak_kelvin);
  }
  if (hot.odd == 0.0 || verdict.outcome == Outcome::out_of_limits) return;
  constexpr double ice_kelvin = 273.15;
  verdict.outcome = Outcome::out_of_limits;
  verdict.text = "too-hot";
  verdict.symptoms = {"long-defrost"};
  verdict.arguments = {{"count", hot.odd}, {"all", hot.all}, {"celsius", peak - ice_kelvin}};
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
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"no-heat"};
  return verdict;
}

LogVerdict judge_defrost_end(const JudgedLog& log) {
  LogVerdict verdict{"defrost-end", "not-shown"};
  OddOnes late;
  OddOnes early;
  for (const Defrost& defrost : log.analysis.defrosts) {
    // Where nothing heated there was no end of heating; that is another rule's matter.
    if (defrost.cause == EndCause::unknown || (log.analysis.has_load && !defrost.heater_is_seen)) continue;
    ++late.all;
    ++early.all;
    if (ended_too_early(log.ratings, defrost))
      ++early.odd;
    else if (defrost.cause == EndCause::time_limit)
      ++late.odd;
  }
  if (late.all == 0.0) {
    judge_too_hot(log, verdict);
    return verdict;
  }
  const bool is_early = early.odd > late.odd;
  const OddOnes& count = is_early ? early : late;
  verdict.arguments = counted(count);
  verdict.text = count.odd == 0.0 ? "by-temperature" : is_early ? "too-early" : "by-time";
  // One of several may have been a door that stood open before it.
  verdict.outcome = count.odd == 1.0 && count.all >= 4.0 ? Outcome::undecided
                    : count.odd == 0.0                   ? Outcome::within_limits
                                                         : Outcome::out_of_limits;
  if (verdict.outcome == Outcome::out_of_limits)
    verdict.symptoms = {is_early ? std::string_view("short-defrost") : std::string_view("long-defrost")};
  judge_too_hot(log, verdict);
  return verdict;
}

}  // namespace ohmwright::cycles
