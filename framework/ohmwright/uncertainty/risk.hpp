#pragma once

#include <limits>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// Two limits, one of which may be infinite, in the unit of what they limit.
struct Interval {
  double lower = -std::numeric_limits<double>::infinity();
  double upper = std::numeric_limits<double>::infinity();
};

/// What is known of a property before it is measured: normal around `mean`, as production leaves it.
///
/// For incoming inspection and for teaching. A part pulled from a failed appliance has no such history: a verdict on it
/// must not use one.
struct Population {
  double mean = 0.0;
  double standard_deviation = 0.0;
};

/// P(the true value lies within the tolerance | reading) for a normal error (JCGM 106:2012, 7.2.2) [dimensionless].
/// Throws `Error` (internal) unless the standard uncertainty is above 0.
OHMWRIGHT_CORE_API double conformance_probability(double reading, double standard_uncertainty, Interval tolerance);

/// The same from the measurement capability index C_m = (T_U − T_L)/(4u) and ỹ = (y − T_L)/(T_U − T_L)
/// (JCGM 106:2012, clause 7) [dimensionless]. Throws `Error` (internal) unless C_m > 0.
OHMWRIGHT_CORE_API double conformance_probability_of_capability(double capability_index, double place_in_tolerance);

/// What a reading leaves of the prior knowledge: normal with normal (JCGM 106:2012, 6). Same unit as the inputs.
/// Throws `Error` (internal) unless both standard deviations are above 0.
OHMWRIGHT_CORE_API Population posterior_of_reading(Population prior, double reading, double standard_uncertainty);

/// Width of the guard band that keeps the risk of a wrong acceptance at one limit at `accepted_risk`: g = z·u
/// (JCGM 106:2012, 8.3), in the unit of u; negative for a risk above one half.
/// Throws `Error` (internal) outside 0 < risk < 1 or for a negative u.
OHMWRIGHT_CORE_API double guard_band(double standard_uncertainty, double accepted_risk);

/// Risk of a wrong acceptance at the acceptance limit of a guard band g = r·U, U = 2u: Φ(−2r) [dimensionless].
OHMWRIGHT_CORE_API double false_acceptance_at_limit(double multiple_of_expanded_uncertainty);

/// What an inspection does in the long run [all dimensionless].
struct GlobalRisk {
  double conforming = 0.0;      ///< share of the population within tolerance
  double consumers_risk = 0.0;  ///< P(accepted and out of tolerance)
  double producers_risk = 0.0;  ///< P(rejected and within tolerance)
};

/// Global risks of accepting readings within `acceptance` (JCGM 106:2012, 9.3 to 9.5).
/// Throws `Error` (internal) unless both standard deviations are above 0.
OHMWRIGHT_CORE_API GlobalRisk global_risk(Population population, double standard_uncertainty, Interval tolerance,
                                          Interval acceptance);

}  // namespace ohmwright
