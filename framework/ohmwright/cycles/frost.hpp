#pragma once

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// Latent heat of fusion of water at 0 °C [J/kg] (handbooks, from memory).
inline constexpr double fusion_joule_per_kilogram = 333.55e3;

/// A value with its standard uncertainty.
struct WithUncertainty {
  double value = 0.0;
  double uncertainty = 0.0;
};

/// Frost melted on a plateau: m = share · power · time / L [kg], uncertainties by GUM 5.1.2, independent.
/// `power` [W] of the heater; `share` of it that melts (0…1); `plateau` [s].
FrostMass frost_from_plateau(WithUncertainty power, WithUncertainty share, WithUncertainty plateau);

/// Standard uncertainty of a duration between two rows of a log with that spacing [s]: both edges are rectangular
/// within one step, Δt/√6 (GUM 4.3.7).
double duration_uncertainty(double spacing_second);

}  // namespace ohmwright::cycles
