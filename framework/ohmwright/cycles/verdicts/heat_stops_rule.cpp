#include <algorithm>

#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

namespace {

/// What is said of heat whose time, load and temperature are `heat`.
std::string_view heat_text(const LastingHeat& heat, bool has_watts) {
  if (heat.has_stopped) return has_watts ? "heated-and-stopped" : "heated-and-stopped-load";
  switch (heat.ground) {
    case HeatGround::never_rests:
      return has_watts ? "never-rests" : "never-rests-load";
    case HeatGround::never_falls:
      return has_watts ? "never-falls" : "never-falls-load";
    case HeatGround::thaws_beside_load:
      return has_watts ? "thaws-beside" : "thaws-beside-load";
    case HeatGround::load_stands:
      return "may-go-on";
    case HeatGround::warm_air:
      return "may-go-on-air";
    case HeatGround::hot_before_cold:
      return "hot-before-cold";
    case HeatGround::hot_beside_cold_air:
      return "hot-beside-cold-air";
    case HeatGround::never_rests_cold:
      return "never-rests-cold";
    case HeatGround::hot_air:
      return "goes-on-air";
    case HeatGround::hot_coil:
    case HeatGround::like_rated_heater:
    case HeatGround::like_other_heatings:
    case HeatGround::far_above_compressor:
      break;
  }
  if (heat.kelvin) return has_watts ? "goes-on-hot" : "goes-on-hot-coil";
  return has_watts ? "goes-on" : "goes-on-load";
}

}  // namespace

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
  verdict.text = heat_text(heat, has_watts);
  if (!heat.is_sure()) {
    verdict.outcome = Outcome::undecided;
    verdict.asks = true;
    return verdict;
  }
  verdict.outcome = Outcome::out_of_limits;
  // What ends a defrost failed, and what should have cut it off behind that, too.
  verdict.symptoms = {"long-defrost", "warm-food-after-defrost"};
  return verdict;
}

}  // namespace ohmwright::cycles
