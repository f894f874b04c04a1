#pragma once

#include <ohmwright/component/fitting.hpp>

namespace ohmwright::defrost_control {

/// The resistance of a timer's motor at 25 °C from readings at known temperatures, each brought there by copper's
/// winding law: their mean and its standard uncertainty, and limits of two of these to each side, which is what is
/// known of this one motor. A row that shows no value, or lies more than a tenth from the middle one, is left out and
/// said so.
Fitting fit_motor(const FitRequest& request);

}  // namespace ohmwright::defrost_control
