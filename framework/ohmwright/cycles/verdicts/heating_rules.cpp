#include <ohmwright/cycles/verdicts/odd_ones.hpp>

namespace ohmwright::cycles {

LogVerdict judge_heater_warms_coil(const JudgedLog& log) {
  LogVerdict verdict{"heater-warms-coil", log.analysis.has_coil ? "no-heating" : "no-coil"};
  OddOnes count;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (!defrost.has_coil || !defrost.heater_is_seen || defrost.is_cut) continue;
    ++count.all;
    if (!defrost.rise_is_seen) ++count.odd;
  }
  if (count.all == 0.0 || !log.analysis.has_coil) return verdict;
  judge_count(log, count, verdict);
  verdict.text = count.odd == 0.0 ? "warms" : "no-rise";
  return verdict;
}

LogVerdict judge_heat_comes_from_heater(const JudgedLog& log) {
  LogVerdict verdict{"heat-comes-from-heater", log.analysis.has_load ? "no-rise" : "no-load"};
  if (!log.analysis.has_load) return verdict;
  OddOnes count;
  for (const Defrost& defrost : log.analysis.defrosts) {
    if (!defrost.rise_is_seen || !defrost.has_load || defrost.is_cut) continue;
    ++count.all;
    if (!defrost.heater_is_seen) ++count.odd;
  }
  if (count.all == 0.0) return verdict;
  judge_count(log, count, verdict);
  verdict.text = count.odd == 0.0 ? "heater-draws" : "no-heater";
  if (verdict.outcome == Outcome::out_of_limits) verdict.symptoms = {"no-heat"};
  return verdict;
}

}  // namespace ohmwright::cycles
