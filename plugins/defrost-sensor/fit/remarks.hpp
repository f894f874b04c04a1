#pragma once

#include <algorithm>

#include <ohmwright/component/fitting.hpp>

#include "fit/fit_row.hpp"
#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// A remark on the row with that index, without arguments.
inline RowRemark remark_on(std::size_t row, const TextEntry& text, bool left_out) { return {row, left_out, text, {}}; }

/// A remark on a row whose value breaks the pattern: with its temperature and value, and what the others ask for there.
inline RowRemark remark_on(const FitRow& row, const TextEntry& text, double expected_log_resistance) {
  RowRemark remark = remark_on(row.row, text, true);
  tell(remark, "temperature", AnyQuantity(row.temperature));
  tell(remark, "value", AnyQuantity(row.resistance));
  tell(remark, "expected", ohms(std::exp(expected_log_resistance)));
  return remark;
}

}  // namespace ohmwright::defrost_sensor
