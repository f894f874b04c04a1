#include <ohmwright/cycles/heat/heat_rules.hpp>
#include <ohmwright/cycles/heat/lasting_heat.hpp>

namespace ohmwright::cycles {

bool is_sure(HeatGround ground) {
  switch (ground) {
    case HeatGround::load_stands:
    case HeatGround::warm_air:
    case HeatGround::hot_before_cold:
    case HeatGround::hot_beside_cold_air:
    case HeatGround::never_rests_cold:
    case HeatGround::never_rests:
    case HeatGround::never_falls:
      return false;
    case HeatGround::hot_coil:
    case HeatGround::hot_air:
    case HeatGround::like_rated_heater:
    case HeatGround::like_other_heatings:
    case HeatGround::far_above_compressor:
    case HeatGround::thaws_beside_load:
      return true;
  }
  return true;
}

std::optional<LastingHeat> find_lasting_heat(const LogAnalysis& analysis, const LogRatings& ratings) {
  const HeatColumns log(analysis);
  std::optional<LastingHeat> asked = heat_by_load(log, ratings);
  if (asked && asked->is_sure()) return asked;
  for (const std::optional<LastingHeat>& heat : {heat_by_coil(log), heat_by_air(log)}) {
    if (heat && heat->is_sure()) return heat;
    if (!asked) asked = heat;
  }
  return asked;
}

}  // namespace ohmwright::cycles
