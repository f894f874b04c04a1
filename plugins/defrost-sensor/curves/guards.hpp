#pragma once

#include <optional>

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

// What the figures of any curve must satisfy. Each throws InputError saying what was found and what is accepted.

/// Slopes that a thermistor of an appliance can have [K].
inline constexpr double smallest_beta_kelvin = 1000.0;
inline constexpr double largest_beta_kelvin = 8000.0;

void require_positive(Resistance r);
void require_in_domain(Temperature t, TemperatureSpan domain);
void require_rising(TemperatureSpan span, TemperatureSpan domain);
void require_plausible_beta(double beta_kelvin);
/// The local slope at both ends of the curve's span and in its middle.
void require_plausible_slope(const Curve& curve);

/// 1/`inverse_kelvin` when that is a temperature of the domain.
std::optional<Temperature> temperature_from_inverse(double inverse_kelvin, TemperatureSpan domain);

}  // namespace ohmwright::defrost_sensor
