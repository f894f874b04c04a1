#include <algorithm>
#include <cstdint>

#include <ohmwright/appliance/conduction.hpp>
#include <ohmwright/locate/leak_to_earth.hpp>

namespace ohmwright::locate {

double share_with_volts_behind(const Appliance& appliance, const JoinedPlaces& places, const PartFault& fault) {
  const MainsSupply& mains = appliance.supply;
  if (!mains.earth) return 1.0;
  const auto conduction = [&](std::uint16_t mode) {
    return conduction_of(appliance, fault.part, mode, {}, Excitation::ohmmeter);
  };
  const Conduction faulty = conduction(fault.fault);
  const auto is_at = [&](std::uint16_t point, std::size_t node) {
    const auto& nodes = appliance.parts[fault.part].nodes;
    return point < nodes.size() && places.are_one(nodes[point], node);
  };
  bool leaks = false;
  bool has_volts = false;
  for (const PartPoints& changed : changed_points(conduction(not_found), faulty)) {
    const bool conducts =
        std::find(faulty.conducting.begin(), faulty.conducting.end(), changed) != faulty.conducting.end();
    if (!conducts || is_at(changed.from, *mains.earth) == is_at(changed.to, *mains.earth)) continue;
    const std::uint16_t from = is_at(changed.from, *mains.earth) ? changed.to : changed.from;
    leaks = true;
    has_volts = has_volts || !is_at(from, mains.neutral);
  }
  return leaks && !has_volts ? share_beside_neutral : 1.0;
}

}  // namespace ohmwright::locate
