#include <algorithm>

#include <ohmwright/cycles/search/defrosts_in_common.hpp>
#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/cycles/verdicts/odd_ones.hpp>

namespace ohmwright::cycles {

namespace {

/// Heatings or rises of a log, those that lack their other half among them, and those that fill too few rows to tell.
struct Halves {
  OddOnes count;
  double untold = 0.0;

  void take(const LogAnalysis& analysis, const Defrost& defrost, bool has_other_half) {
    // Hours of "heating" in rows that step over one are several things taken for one.
    const bool rows_tell =
        !rows_step_over_heating(analysis) && fills_telling_rows(analysis, defrost.end_second - defrost.start_second);
    if (!has_other_half && !rows_tell) {
      ++untold;
      return;
    }
    ++count.all;
    if (!has_other_half) ++count.odd;
  }
};

/// What the halves say: `good` where none lacks the other, `odd` where some do; nothing where there are none.
void judge_halves(const JudgedLog& log, const Halves& halves, std::string_view good, std::string_view odd,
                  LogVerdict& verdict) {
  if (halves.count.odd == 0.0 && halves.untold > 0.0) {
    verdict.outcome = Outcome::undecided;
    verdict.text = "rows-too-far";
    return;
  }
  if (halves.count.all == 0.0) return;
  judge_count(log, halves.count, verdict);
  verdict.text = halves.count.odd == 0.0 ? good : odd;
}

/// Heatings beside which the coil's probe stayed far below the melting point, among all.
OddOnes probe_elsewhere(const LogAnalysis& analysis) {
  OddOnes count;
  for (const Defrost& one : analysis.defrosts) {
    if (!one.has_coil || !one.heater_is_seen || one.is_cut) continue;
    ++count.all;
    if (one.rise_is_seen && stayed_far_below_melting(one)) ++count.odd;
  }
  return count;
}

/// A coil that stayed far below the melting point: in a pause in which a heater should have heated, or behind a door
/// that was opened. Of such rises one alone says nothing.
bool melts_nothing(const Defrost& defrost) {
  constexpr double far_below_kelvin = melting_point_kelvin - 6.0;
  return defrost.has_coil && defrost.peak_kelvin && *defrost.peak_kelvin < far_below_kelvin;
}

/// What is on all the time draws no more while the coil warms; the rule on heat that stops asks about it.
bool is_beside_load_that_never_rests(const LogAnalysis& analysis, const Defrost& defrost) {
  if (!analysis.lasting_heat) return false;
  const LastingHeat& heat = *analysis.lasting_heat;
  const bool never_rests = heat.ground == HeatGround::never_falls || heat.ground == HeatGround::never_rests ||
                           heat.ground == HeatGround::never_rests_cold;
  return never_rests && defrost.start_second < heat.end_second && defrost.end_second > heat.start_second;
}

}  // namespace

LogVerdict judge_heater_warms_coil(const JudgedLog& log) {
  LogVerdict verdict{"heater-warms-coil", log.analysis.has_coil ? "no-heating" : "no-coil"};
  if (!log.analysis.has_coil) return verdict;
  constexpr double fewest_elsewhere = 2.0;
  const OddOnes elsewhere = probe_elsewhere(log.analysis);
  if (elsewhere.odd >= fewest_elsewhere && elsewhere.odd * 2.0 > elsewhere.all)
    return question("heater-warms-coil", "probe-elsewhere", elsewhere.arguments());
  Halves heatings;
  for (const Defrost& defrost : log.analysis.defrosts)
    if (defrost.has_coil && defrost.heater_is_seen && !defrost.is_cut)
      heatings.take(log.analysis, defrost, defrost.rise_is_seen);
  judge_halves(log, heatings, "warms", "no-rise", verdict);
  return verdict;
}

LogVerdict judge_heat_comes_from_heater(const JudgedLog& log) {
  LogVerdict verdict{"heat-comes-from-heater", log.analysis.has_load ? "no-rise" : "no-load"};
  if (!log.analysis.has_load) return verdict;
  Halves rises;
  bool any_untold = false;
  const auto is_cold_rise = [](const Defrost& one) {
    return one.rise_is_seen && one.has_load && !one.is_cut && !one.heater_is_seen && melts_nothing(one);
  };
  const bool is_single_cold =
      std::count_if(log.analysis.defrosts.begin(), log.analysis.defrosts.end(), is_cold_rise) == 1;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (!defrost.rise_is_seen || !defrost.has_load || defrost.is_cut) continue;
    if (is_single_cold && is_cold_rise(defrost)) continue;
    if (!defrost.heater_is_seen && is_beside_load_that_never_rests(log.analysis, defrost))
      any_untold = true;
    else
      rises.take(log.analysis, defrost, defrost.heater_is_seen);
  }
  if (any_untold) return LogVerdict{"heat-comes-from-heater", "load-never-rests", Outcome::undecided};
  judge_halves(log, rises, "heater-draws", "no-heater", verdict);
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"no-heat"};
  return verdict;
}

}  // namespace ohmwright::cycles
