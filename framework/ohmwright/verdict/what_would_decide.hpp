#pragma once

#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright {

/// A reading that could be taken next [unit of the estimate].
struct NextReading {
  double standard_uncertainty = 0.0;  ///< ≥ 0, of all its errors
  /// The part of it that it shares with the present estimate: a better meter leaves the thermometer's error as it is,
  /// and so moves the value by little. At most the smaller of both uncertainties.
  double shared_uncertainty = 0.0;
};

/// Chance that the next reading would decide the part either way (`decide`), given what is known now: the truth is
/// drawn from the present estimate, the new reading around it, what they share staying as it is. Normal theory for
/// both; limits may be infinite.
OHMWRIGHT_CORE_API double probability_of_decision(const Estimate& now, double lower, double upper, NextReading next,
                                                  double confidence);

}  // namespace ohmwright
