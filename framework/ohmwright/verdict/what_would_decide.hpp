#pragma once

#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright {

/// Chance that a new reading of standard uncertainty `new_standard_uncertainty` (unit of the estimate) would decide the
/// part either way, given what is known now: the truth is drawn from the present estimate, the new reading around it.
/// Normal theory for both. `new_standard_uncertainty` ≥ 0; limits may be infinite.
OHMWRIGHT_CORE_API double probability_of_decision(const Estimate& now, double lower, double upper,
                                                  double new_standard_uncertainty, double confidence);

}  // namespace ohmwright
