#pragma once

#include <optional>

#include <ohmwright/component/fitting.hpp>

#include "fit/fit_row.hpp"

namespace ohmwright::defrost_sensor {

/// Rows that a curve can be fitted to: from cold to hot, each temperature once, the resistance falling.
struct ScreenedRows {
  FitRows good;
  double beta_kelvin = 0.0;      ///< the slope that most rows agree on; 0 where there is no thermistor's curve
  double disagree_kelvin = 0.0;  ///< as in `FewRows` and `EndRows`: one is wrong, and nobody knows which
  std::optional<Temperature> unsupported;  ///< as there
};

/// Leaves out the rows that break the pattern of the others, each with its remark; says of all rows why none are
/// left (the resistance rises, no curve runs through most of them, all have one temperature). `rows`: one or more.
ScreenedRows screen_rows(const FitRows& rows, std::vector<RowRemark>& remarks);

}  // namespace ohmwright::defrost_sensor
