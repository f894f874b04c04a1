#pragma once

#include <cstddef>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

// At low voltage lie a sensor, a fan whose electronics bear no 500 V, and the wires and connectors between them and the
// control. A tester's 500 V would go into these and into the board, and prove nothing of what lies at the mains.

bool lies_at_low_voltage(const Appliance& appliance, std::size_t part, const Environment& environment);

/// Whether it is one of those wires and connectors, of which an ohmmeter tells all that is asked (class III).
bool is_wire_at_low_voltage(const Appliance& appliance, std::size_t part, const Environment& environment);

/// The parts that tell whether the appliance may be energised: they have an insulation to read, at the mains.
std::vector<std::size_t> parts_with_insulation(const Appliance& appliance, const Environment& environment);

}  // namespace ohmwright::cli
