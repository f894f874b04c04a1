#pragma once

#include <ohmwright/component/fitting.hpp>

namespace ohmwright::fan_motor {

/// The resistance of a copper winding at 25 degC from readings, each moved there by (234.5 + 25)/(234.5 + t): mean and
/// its standard uncertainty. A row that shows no value, or lies more than a tenth from the middle of all, is left out
/// and said so. The tolerance in the ratings is what is known of this one part.
Fitting fit_winding(const FitRequest& request);

}  // namespace ohmwright::fan_motor
