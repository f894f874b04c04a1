#pragma once

#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright::heater {

/// What an element of that resistance [ohm] makes at that voltage [V], with what both leave open [W]: P = V²/R (Ohm,
/// Joule), 2P/V·u(V) and P/R·u(R) (GUM 5.1). Both must be above 0.
Estimate power_by_ohms(const Estimate& line, const Estimate& ohms);

}  // namespace ohmwright::heater
