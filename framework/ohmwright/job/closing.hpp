#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <ohmwright/job/service_call.hpp>

namespace ohmwright::job {

/// Something that stands against energising the appliance, or against calling it repaired.
struct Obstacle {
  enum class Form : std::uint8_t {
    insulation_not_within,   ///< the last insulation reading of `subject` is not within limits
    insulation_unread,       ///< `subject` was replaced, and its insulation was not read since
    earth_bond_not_within,   ///< the last reading of the earth bond is not within limits
    earth_bond_unread,       ///< a part was replaced, and the earth bond was not read since
    nothing_insulated_read,  ///< somebody felt it tingle, and no insulation was read at all
  };

  Form form = Form::insulation_not_within;
  std::string subject;  ///< what people call the part; empty for the earth bond
};

/// What stands against a forced defrost, a test run, and closing as repaired: insulation and earth bond that are not
/// within limits, or were not read after the repair. While there is anything, none of the three is allowed.
std::vector<Obstacle> obstacles(const ServiceCall& call);

/// Limit of an earth bond of `cord_resistance` [ohm]: 0.1 ohm more than its cord, or 0.2 ohm with the cord in it.
/// Source: EN 50106 (routine tests of new class I appliances); a reading needs 10 A from 12 V at most.
inline constexpr double most_earth_bond_with_cord = 0.2;

}  // namespace ohmwright::job
