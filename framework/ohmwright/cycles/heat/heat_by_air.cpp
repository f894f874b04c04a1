#include <ohmwright/cycles/heat/heat_rules.hpp>

namespace ohmwright::cycles {

namespace {

/// 35 degC: few rooms are so warm, and what is unplugged ends at the room's.
constexpr double warm_air_kelvin = melting_point_kelvin + 35.0;
/// 40 degC: something heats it.
constexpr double hot_air_kelvin = melting_point_kelvin + 40.0;

HeatGround ground_of(const HeatColumns& log, const ColumnStretch& stretch, std::optional<double> kelvin) {
  if (log.is_hot_before_cold(stretch, LogQuantity::cabinet_temperature)) return HeatGround::hot_before_cold;
  return kelvin && *kelvin > hot_air_kelvin ? HeatGround::hot_air : HeatGround::warm_air;
}

}  // namespace

std::optional<LastingHeat> heat_by_air(const HeatColumns& log) {
  constexpr LogQuantity air = LogQuantity::cabinet_temperature;
  const ColumnStretch stretch = log.longest_above(index_of(air), warm_air_kelvin);
  if (log.second_of(stretch) < past_any_limit_second || !log.may_be_heated(stretch, air)) return std::nullopt;
  const std::optional<double> kelvin = log.settled(stretch, air);
  return LastingHeat{log.start_of(stretch), log.end_of(stretch), std::nullopt, kelvin, ground_of(log, stretch, kelvin)};
}

}  // namespace ohmwright::cycles
