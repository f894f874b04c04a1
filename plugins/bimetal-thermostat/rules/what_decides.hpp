#pragma once

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// Steps in which a slow warm-up or cool-down is read, and how well a thermometer taped to the part does then [K]
/// (common practice, no source).
inline constexpr double fine_step_kelvin = 0.5;
inline constexpr double good_thermometer_kelvin = 0.3;

/// Chance that reading the same trip in steps of half a kelvin with the same thermometer decides it [0…1].
double chance_of_fine_steps(const Scene& scene, const Bracketed& trip, double lower, double upper);

/// Chance that the same readings with a thermometer good to 0.3 K decide it [0…1].
double chance_of_better_thermometer(const Scene& scene, const Bracketed& trip, double lower, double upper);

/// Share of the gap between the two readings in the doubt of a trip point [0…1].
double share_of_gap(const Bracketed& trip);

}  // namespace ohmwright::bimetal_thermostat
