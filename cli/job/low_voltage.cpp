#include "job/low_voltage.hpp"

#include <algorithm>
#include <optional>
#include <string_view>

#include <ohmwright/appliance/joined_places.hpp>
#include <ohmwright/component/role.hpp>

#include "job/worked_part.hpp"
#include "locate/readings.hpp"

namespace ohmwright::cli {

namespace {

/// A place at low voltage is one that a sensor or such a fan is wired to, and that is no pole of the supply.
class LowVoltage {
 public:
  LowVoltage(const Appliance& appliance, const Environment& environment)
      : appliance_(appliance), joined_(appliance), low_(appliance.parts.size()) {
    for (std::size_t i = 0; i < low_.size(); ++i) {
      const PlacedPart& placed = appliance.parts[i];
      low_[i] = is_sensor(placed.kind->descriptor()) ||
                !bears_test_volts(*placed.kind, {placed.part, placed.ratings, placed.title}, {}, environment);
      if (!low_[i]) continue;
      for (const std::optional<std::size_t>& node : placed.nodes)
        if (node && !is_supply(node)) nodes_.push_back(node);
    }
    for (std::size_t i = 0; i < low_.size(); ++i) low_[i] = low_[i] || is_wire(i);
  }

  bool has(std::size_t part) const { return low_[part]; }
  bool is_wire(std::size_t part) const {
    const PlacedPart& placed = appliance_.parts[part];
    return plays(placed.kind->descriptor().roles, role::joins_parts) && !placed.nodes.empty() &&
           std::any_of(nodes_.begin(), nodes_.end(), [&](const std::optional<std::size_t>& low) {
             return joined_.are_one(placed.nodes.front(), low);
           });
  }

 private:
  bool is_supply(const std::optional<std::size_t>& node) const {
    const MainsSupply& supply = appliance_.supply;
    return joined_.are_one(node, supply.live) || joined_.are_one(node, supply.neutral) ||
           joined_.are_one(node, supply.earth);
  }

  const Appliance& appliance_;
  JoinedPlaces joined_;
  std::vector<bool> low_;
  std::vector<std::optional<std::size_t>> nodes_;
};

}  // namespace

bool lies_at_low_voltage(const Appliance& appliance, std::size_t part, const Environment& environment) {
  return LowVoltage(appliance, environment).has(part);
}

bool is_wire_at_low_voltage(const Appliance& appliance, std::size_t part, const Environment& environment) {
  return LowVoltage(appliance, environment).is_wire(part);
}

std::vector<std::size_t> parts_with_insulation(const Appliance& appliance, const Environment& environment) {
  const LowVoltage low(appliance, environment);
  std::vector<std::size_t> parts;
  for (std::size_t i = 0; i < appliance.parts.size(); ++i)
    if (!low.has(i) && tells_insulation(appliance.parts[i].kind->descriptor())) parts.push_back(i);
  return parts;
}

}  // namespace ohmwright::cli
