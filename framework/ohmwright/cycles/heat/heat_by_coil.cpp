#include <ohmwright/cycles/heat/heat_rules.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double hot_for_second = 3600.0;  ///< so long no defrost keeps the coil hot

/// Whether the load of the stretch is more than the compressor's: then the logger was in its place.
bool draws_more_than_compressor(const HeatColumns& log, const ColumnStretch& stretch) {
  const std::optional<double> load = log.mean_in(stretch.begin, stretch.end, log.load());
  const std::optional<double> compressor = log.compressor_load(stretch);
  return load && compressor && *load > above_compressor * *compressor;
}

/// Whether the cabinet stays frozen beside it for so long that a hot coil would have warmed it (common practice, no
/// source).
bool is_beside_frozen_air(const HeatColumns& log, const ColumnStretch& stretch) {
  constexpr double warms_within_second = 3.0 * 3600.0;
  if (log.second_of(stretch) < warms_within_second) return false;
  const std::optional<double> air = log.settled(stretch, LogQuantity::cabinet_temperature);
  return air && *air < freezing_air_kelvin;
}

HeatGround ground_of_hot_coil(const HeatColumns& log, const ColumnStretch& stretch) {
  if (draws_more_than_compressor(log, stretch)) return HeatGround::hot_coil;
  if (log.is_hot_before_cold(stretch, LogQuantity::coil_temperature)) return HeatGround::hot_before_cold;
  return is_beside_frozen_air(log, stretch) ? HeatGround::hot_beside_cold_air : HeatGround::hot_coil;
}

}  // namespace

std::optional<LastingHeat> heat_by_coil(const HeatColumns& log) {
  if (!log.analysis().has_coil) return std::nullopt;
  constexpr LogQuantity coil = LogQuantity::coil_temperature;
  const ColumnStretch stretch = log.longest_above(index_of(coil), hottest_good_end_kelvin);
  if (log.second_of(stretch) < hot_for_second || !log.may_be_heated(stretch, coil)) return std::nullopt;
  return LastingHeat{log.start_of(stretch), log.end_of(stretch), log.mean_in(stretch.begin, stretch.end, log.load()),
                     log.settled(stretch, coil), ground_of_hot_coil(log, stretch)};
}

}  // namespace ohmwright::cycles
