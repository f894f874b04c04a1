#pragma once

#include <ohmwright/component/fitting.hpp>

namespace ohmwright::heater {

/// The cold resistance at 20 °C from readings, of unknown wire moved there by nothing (10 K are 0.1 %): mean and its
/// standard uncertainty. A row that shows no value, or lies more than a tenth from the middle of all, is left out and
/// said so. The tolerance in the ratings is what is known of this one part.
Fitting fit_cold_resistance(const FitRequest& request);

}  // namespace ohmwright::heater
