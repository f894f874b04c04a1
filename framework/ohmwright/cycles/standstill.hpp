#pragma once

#include <optional>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/uncertainty/function_ref.hpp>

namespace ohmwright::cycles {

/// The longest time in which an appliance that had cooled before no longer does: nothing runs and nothing heats for far
/// longer than its pauses usually are, or the coil, else the cabinet, stays at the room's temperature. Nothing where
/// there is none. `unseen_within` gives the seconds between two in which runs were not logged.
std::optional<Standstill> find_standstill(const LogAnalysis& analysis,
                                          FunctionRef<double(double from_second, double to_second)> unseen_within);

}  // namespace ohmwright::cycles
