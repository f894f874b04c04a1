#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/median.hpp>
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
  return defrost.cause == EndCause::temperature;
}

/// Whether all that a time limit ended were never warm: ice was left, and what should end them was never warmed either.
bool limits_left_ice(const LogAnalysis& analysis) {
  bool any = false;
  for (const Defrost& one : analysis.defrosts) {
    if (one.cause != EndCause::time_limit || one.is_cut) continue;
    if (!has_risen(one) || !ended_hardly_past_melting(one)) return false;
    any = true;
  }
  return any;
}

/// A coil warmer than this holds no ice and goes on being heated (common practice, no source: sensors and thermostats
/// end defrosts at 5 to 24 degC, and the heater's own heat carries the coil some way on) [K].
double hottest_of_a_good_end(const LogRatings& ratings) {
  constexpr double carried_on = 25.0;
  return ratings.end_temperature_kelvin ? *ratings.end_temperature_kelvin + carried_on : hottest_good_end_kelvin;
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

/// Whether so few were told of the whole ones that they say nothing of the others: no more than half, and fewer than so
/// many.
bool are_few_of(const OddOnes& count, double whole, double enough) {
  return count.odd < enough && 2.0 * count.odd <= whole;
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

/// What the log leaves open where its lengths may be alike by chance: no limit is stated, and a strong heater on little
/// frost, or a thermostat that opens early, takes as long (common practice, no source). Rows that are not small against
/// a heating show no length, and a rise of the coil goes on behind it.
std::optional<LogVerdict> asked_of_quick_ones(const JudgedLog& log) {
  constexpr double quick_rise_second = 960.0;
  constexpr double rows_of_edges = 1.5;  // each edge of a rise lies within a row
  constexpr double small_share = 0.05;   // of the heating
  if (log.ratings.time_limit_second) return std::nullopt;
  std::vector<double> seconds;
  OddOnes cold;
  bool any_heated = false;
  for (const Defrost& one : log.analysis.defrosts) {
    if (one.is_cut || heated_unseen(one)) continue;
    seconds.push_back(duration_of(one));
    any_heated = any_heated || one.heater_is_seen;
    ++cold.all;
    if (ended_hardly_past_melting(one)) ++cold.odd;
  }
  const double usual = median_of(std::move(seconds));
  const double spacing_second = log.analysis.coverage.spacing_second;
  const bool are_few_rows = spacing_second > small_share * usual;
  const double quick_rise = std::max(quick_rise_second, quick_heating_second + rows_of_edges * spacing_second);
  if (usual >= (any_heated ? quick_heating_second : quick_rise) || (any_heated && !are_few_rows)) return std::nullopt;
  const bool are_cold = 2.0 * cold.odd > cold.all;
  OddOnes all = cold;
  all.odd = all.all;
  return are_cold ? question("defrost-end", "cold-ends", cold.arguments())
                  : question("defrost-end", "may-be-by-time", all.arguments());
}

}  // namespace

LogVerdict judge_defrost_end(const JudgedLog& log) {
  LogVerdict verdict{"defrost-end", "not-shown"};
  OddOnes late;
  OddOnes early;
  double whole = 0.0;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (!defrost.is_cut && !heated_unseen(defrost)) ++whole;
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
    if (whole > 0.0)
      verdict = LogVerdict{"defrost-end", rows_are_far ? "rows-too-far" : "not-told", Outcome::undecided};
    if (const auto steady = step_to_one_length(log.analysis))
      verdict = question("defrost-end", "steps-to-one-length", {{"count", static_cast<double>(*steady)}});
    return open_ends(log).value_or(verdict);
  }
  const bool is_early = early.odd > late.odd;
  const OddOnes& count = is_early ? early : late;
  judge_count(log, count, verdict);
  const std::optional<LogVerdict> asked = is_early ? std::nullopt : asked_of_quick_ones(log);
  // A time limit is met by those with most frost alone; what ends by chance after one time has to be most of them.
  constexpr double enough_late = 2.0;
  constexpr double enough_early = 3.0;
  const double enough = asked ? whole + 1.0 : is_early ? enough_early : enough_late;
  if (verdict.outcome == Outcome::out_of_limits && are_few_of(count, whole, enough))
    verdict.outcome = Outcome::undecided;
  const bool is_out = verdict.outcome == Outcome::out_of_limits;
  if (count.odd == 0.0)
    verdict.text = "by-temperature";
  else if (is_early)
    verdict.text = is_out ? "too-early" : "some-too-early";
  else
    verdict.text = !is_out ? "some-by-time" : limits_left_ice(log.analysis) ? "by-time-with-ice" : "by-time";
  if (is_out && asked) return *asked;
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
