#pragma once

#include <vector>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright::defrost_sensor {

/// Places in the list of fault modes.
enum FaultModeIndex : std::uint16_t {
  fault_open,
  fault_short,
  fault_drift_high,
  fault_drift_low,
  fault_leakage,
  fault_series_resistance,
  fault_wrong_curve,
  fault_misplaced,
  fault_intermittent,
  fault_far_too_low,
};

/// Everything that the kind says of itself.
Descriptor make_descriptor();

std::vector<ProcedureDescriptor> describe_procedures();
std::vector<CautionDescriptor> describe_cautions();
std::vector<FaultModeDescriptor> describe_fault_modes();

}  // namespace ohmwright::defrost_sensor
