#pragma once

#include <ohmwright/component/fitting.hpp>

#include "fit/fit_row.hpp"
#include "fit/working_model.hpp"

namespace ohmwright::defrost_sensor {

/// The remark on a row that lies off the others: what they ask for there, and the slip of the pen that would explain it
/// (ohms and kilohms, a decimal point, °F and °C), where one brings it within `explained_kelvin`.
RowRemark explain(const FitRow& row, const WorkingModel& model);

/// Whether such a slip explains the row.
bool is_slip(const FitRow& row, const WorkingModel& model);

/// As close as a row with a room thermometer's error lies (common practice, no source) [K].
inline constexpr double explained_kelvin = 2.0;

}  // namespace ohmwright::defrost_sensor
