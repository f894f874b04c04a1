#pragma once

#include <ohmwright/component/fitting.hpp>

#include "fit/fit_row.hpp"

namespace ohmwright::defrost_sensor {

/// The rows that hold a resistance above 0 ohm at a temperature of a thermistor, in the order given. Every other one
/// (an over-range, a contact, a slipped temperature) gets its remark.
FitRows read_rows(const FitRequest& request, std::vector<RowRemark>& remarks);

}  // namespace ohmwright::defrost_sensor
