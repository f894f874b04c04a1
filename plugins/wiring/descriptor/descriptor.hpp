#pragma once

#include <vector>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright::wiring {

/// Everything that the kind says of itself.
Descriptor make_descriptor();

std::vector<ProcedureDescriptor> describe_procedures();
std::vector<CautionDescriptor> describe_cautions();
std::vector<FaultModeDescriptor> describe_fault_modes();

}  // namespace ohmwright::wiring
