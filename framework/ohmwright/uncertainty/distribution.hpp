#pragma once

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/error_source.hpp>

namespace ohmwright {

/// Standard uncertainty of an error between ± `half_width` [unit of the half-width].
/// Rectangular a/√3 (GUM 4.3.7), triangular a/√6 (GUM 4.3.9), arcsine a/√2 (GUM H.1.3.3).
/// Throws `Error` (internal) for the two shapes that have no limits, and for a half-width that is negative or no
/// number.
OHMWRIGHT_CORE_API double standard_uncertainty_of_half_width(Shape shape, double half_width);

/// Half-width of the limits of an error of standard uncertainty `standard_uncertainty`: the inverse of the above, same
/// errors.
OHMWRIGHT_CORE_API double half_width_of(Shape shape, double standard_uncertainty);

/// Standard uncertainty of one step of a display, δx/√12 (GUM F.2.2.1) [unit of the resolution].
OHMWRIGHT_CORE_API double standard_uncertainty_of_resolution(double resolution);

/// Degrees of freedom of an uncertainty that is itself known to `relative_doubt` = Δu/u only: ½·(Δu/u)⁻² (GUM G.4.2).
/// Infinity for 0. Throws `Error` (internal) for a negative doubt.
OHMWRIGHT_CORE_API double degrees_of_freedom_of_relative_doubt(double relative_doubt);

/// P(Z ≤ z) of the standard normal [dimensionless].
OHMWRIGHT_CORE_API double normal_probability_below(double z);
/// z with P(Z ≤ z) = `probability` of the standard normal. Throws `Error` (internal) outside 0 < probability < 1.
OHMWRIGHT_CORE_API double normal_quantile(double probability);

/// P(T ≤ t) of Student's t [dimensionless]; the normal for infinite degrees of freedom.
OHMWRIGHT_CORE_API double student_t_probability_below(double t, double degrees_of_freedom);
/// t with P(T ≤ t) = `probability`. Throws `Error` (internal) outside 0 < probability < 1 or for degrees of freedom ≤
/// 0.
OHMWRIGHT_CORE_API double student_t_quantile(double probability, double degrees_of_freedom);

/// Factor k of the expanded uncertainty U = k·u that covers `probability`, two-sided (GUM G.3, G.6): t_p(ν).
/// The degrees of freedom are taken as given; truncating them first (GUM G.4.1) is the caller's choice.
/// Throws `Error` (internal) outside 0 < probability < 1 or for degrees of freedom ≤ 0.
OHMWRIGHT_CORE_API double coverage_factor(double probability, double degrees_of_freedom);

}  // namespace ohmwright
