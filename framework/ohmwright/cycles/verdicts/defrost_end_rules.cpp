#include <algorithm>
#include <optional>

#include <ohmwright/cycles/search/defrosts_in_common.hpp>
#include <ohmwright/cycles/telling_rows.hpp>
#include <ohmwright/cycles/verdicts/odd_ones.hpp>
#include <ohmwright/cycles/verdicts/odd_patterns.hpp>
#include <ohmwright/cycles/verdicts/open_ends.hpp>

namespace ohmwright::cycles {

namespace {

/// Cold at the end, and no time limit explains it: it ended long before the rated one, or what ended it took the coil
/// for warm, or it had hardly begun to melt.
bool ended_too_early(const LogRatings& ratings, const Defrost& defrost) {
  constexpr double clearly_before = 0.9;  // of the time limit
  const bool is_cold = defrost.ground == EndGround::still_melting ||
                       (defrost.ground == EndGround::below_rated && ended_hardly_past_melting(defrost));
  if (!is_cold || defrost.is_cut) return false;
  const double heated = defrost.end_second - defrost.start_second;
  const double limit = ratings.time_limit_least_second.value_or(ratings.time_limit_second.value_or(0.0));
  if (limit > 0.0) return heated < clearly_before * limit;
  if (defrost.cause == EndCause::temperature) return true;
  return defrost.ground == EndGround::still_melting && defrost.plateau_second < hardly_melted_share * heated;
}

/// A coil warmer than this holds no ice and goes on being heated (common practice, no source: sensors and thermostats
/// end defrosts at 5 to 24 degC, and the heater's own heat carries the coil some way on) [K].
double hottest_of_a_good_end(const LogRatings& ratings) {
  constexpr double unrated = 318.15;  // 45 degC
  constexpr double carried_on = 25.0;
  return ratings.end_temperature_kelvin ? *ratings.end_temperature_kelvin + carried_on : unrated;
}

/// Where nothing heated there was no end of heating; that is another rule's matter.
bool heated_unseen(const Defrost& defrost) { return defrost.has_load && !defrost.heater_is_seen; }

/// Defrosts by how warm the coil got, those hotter than a good one leaves it among them.
struct HotOnes {
  OddOnes count;
  double peak_kelvin = 0.0;
};

HotOnes hot_ones(const JudgedLog& log, std::optional<double> Defrost::*peak) {
  HotOnes hot;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (!(defrost.*peak) || heated_unseen(defrost)) continue;
    ++hot.count.all;
    hot.peak_kelvin = std::max(hot.peak_kelvin, *(defrost.*peak));
    if (*(defrost.*peak) > hottest_of_a_good_end(log.ratings)) ++hot.count.odd;
  }
  return hot;
}

/// Whether the time limits of a log may be as they should be: no end temperature is known, and where the coil was
/// logged the ice was gone and nothing got too hot. There are controls that end by time alone.
bool limits_may_be_right(const JudgedLog& log) {
  constexpr double surely_gone_kelvin = melting_point_kelvin + 5.0;
  if (log.ratings.end_temperature_kelvin) return false;
  return std::none_of(log.analysis.defrosts.begin(), log.analysis.defrosts.end(), [&](const Defrost& one) {
    if (one.cause != EndCause::time_limit || heated_unseen(one) || !one.has_coil) return false;
    const double warmest = std::max(one.end_kelvin.value_or(0.0), one.peak_kelvin.value_or(0.0));
    return warmest < surely_gone_kelvin || warmest > hottest_of_a_good_end(log.ratings);
  });
}

}  // namespace

LogVerdict judge_defrost_end(const JudgedLog& log) {
  LogVerdict verdict{"defrost-end", "not-shown"};
  OddOnes late;
  OddOnes early;
  bool any_whole = false;
  for (const Defrost& defrost : log.analysis.defrosts) {
    any_whole = any_whole || (!defrost.is_cut && !heated_unseen(defrost));
    if (defrost.cause == EndCause::unknown || heated_unseen(defrost)) continue;
    ++late.all;
    ++early.all;
    if (ended_too_early(log.ratings, defrost))
      ++early.odd;
    else if (defrost.cause == EndCause::time_limit)
      ++late.odd;
  }
  if (late.all == 0.0) {
    const bool rows_are_far =
        log.analysis.has_coil && log.analysis.coverage.spacing_second > farthest_telling_rows_second;
    if (any_whole) verdict = LogVerdict{"defrost-end", rows_are_far ? "rows-too-far" : "not-told", Outcome::undecided};
    if (const auto steady = step_to_one_length(log.analysis))
      verdict = question("defrost-end", "steps-to-one-length", {{"count", static_cast<double>(*steady)}});
    return open_ends(log).value_or(verdict);
  }
  const bool is_early = early.odd > late.odd;
  const OddOnes& count = is_early ? early : late;
  judge_count(log, count, verdict);
  const bool is_out = verdict.outcome == Outcome::out_of_limits;
  if (count.odd == 0.0)
    verdict.text = "by-temperature";
  else if (is_early)
    verdict.text = is_out ? "too-early" : "some-too-early";
  else
    verdict.text = is_out ? "by-time" : "some-by-time";
  if (is_out && !is_early && limits_may_be_right(log))
    return question("defrost-end", "may-end-by-time", count.arguments());
  if (is_out) verdict.symptoms = {is_early ? std::string_view("short-defrost") : std::string_view("long-defrost")};
  return is_out ? verdict : open_ends(log).value_or(verdict);
}

LogVerdict judge_coil_heat(const JudgedLog& log) {
  LogVerdict verdict{"coil-heat", log.analysis.has_coil ? "no-heating" : "no-coil"};
  HotOnes hot = hot_ones(log, &Defrost::lasting_peak_kelvin);
  // In rows far apart a peak stands in one alone; in each of three defrosts it is no slip.
  constexpr double no_slips = 3.0;
  if (log.analysis.coverage.spacing_second > farthest_telling_rows_second)
    if (const HotOnes single = hot_ones(log, &Defrost::peak_kelvin); single.count.odd >= no_slips) hot = single;
  if (hot.count.all == 0.0 || !log.analysis.has_coil) return verdict;
  judge_count(log, hot.count, verdict);
  verdict.arguments.push_back({"celsius", hot.peak_kelvin - melting_point_kelvin});
  verdict.text = hot.count.odd == 0.0 ? "cool-enough" : "too-hot";
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"long-defrost"};
  return verdict;
}

}  // namespace ohmwright::cycles
