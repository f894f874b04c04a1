#pragma once

#include <ohmwright/component/fitting.hpp>

namespace ohmwright::defrost_sensor {

/// Ratings of the forms "steinhart-hart", "beta" and "chart" from rows of temperature and resistance, best first by the
/// standard deviation of their residuals in kelvin; the chart, which has none, last. A residual is what a sensor of
/// that curve says for the resistance of the row, less the row's temperature [K]; 0 for a row without a value.
///
/// Rows that repeat a temperature, do not fall or look slipped are left out and said so. A remark on all rows together
/// (too few, a rising resistance, a form that they do not allow) stands at the last row.
Fitting fit_sensor(const FitRequest& request);

}  // namespace ohmwright::defrost_sensor
