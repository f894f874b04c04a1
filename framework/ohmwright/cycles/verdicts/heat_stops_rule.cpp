#include <algorithm>

#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

LogVerdict judge_heat_stops(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  LogVerdict verdict{"heat-stops", "not-shown"};
  if (!analysis.lasting_heat) {
    const auto stopped = std::count_if(analysis.defrosts.begin(), analysis.defrosts.end(),
                                       [](const Defrost& one) { return !one.is_cut; });
    if (stopped == 0 || (!analysis.has_load && !analysis.has_coil)) return verdict;
    verdict.outcome = Outcome::within_limits;
    verdict.text = "stops";
    verdict.arguments = {{"all", static_cast<double>(stopped)}};
    return verdict;
  }
  const LastingHeat& heat = *analysis.lasting_heat;
  verdict.arguments = {{"lasted_second", heat.second()}, {"from_second", heat.start_second}};
  const bool has_watts = heat.load && !analysis.load_is_current;
  if (has_watts) verdict.arguments.push_back({"watt", *heat.load});
  if (heat.kelvin) verdict.arguments.push_back({"celsius", *heat.kelvin - melting_point_kelvin});
  if (!heat.is_sure) {
    verdict.outcome = Outcome::undecided;
    verdict.text = heat.is_of_air ? "may-go-on-air" : "may-go-on";
    return verdict;
  }
  verdict.outcome = Outcome::out_of_limits;
  verdict.text = heat.is_of_air ? "goes-on-air"
                 : heat.kelvin  ? (has_watts ? "goes-on-hot" : "goes-on-hot-coil")
                                : (has_watts ? "goes-on" : "goes-on-load");
  // What ends a defrost failed, and what should have cut it off behind that, too.
  verdict.symptoms = {"long-defrost", "warm-food-after-defrost"};
  return verdict;
}

}  // namespace ohmwright::cycles
