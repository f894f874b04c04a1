#pragma once

#include <vector>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright::bimetal_thermostat {

/// Places in the list of fault modes.
enum FaultModeIndex : std::uint16_t {
  fault_welded,
  fault_stuck_open,
  fault_drifted_high,
  fault_drifted_low,
  fault_bad_contact,
  fault_link_open,
  fault_burnt_contact,
};

/// Places in the list of terminals. A part whose link shares a lead joins two of them in its appliance.
enum TerminalIndex : std::uint16_t { contact_1, contact_2, link_1, link_2 };

/// Everything that the kind says of itself.
Descriptor make_descriptor();

std::vector<ProcedureDescriptor> describe_procedures();
std::vector<CautionDescriptor> describe_cautions();
std::vector<FaultModeDescriptor> describe_fault_modes();

}  // namespace ohmwright::bimetal_thermostat
