#pragma once

#include <optional>

#include "part/control_ratings.hpp"

namespace ohmwright::defrost_control {

/// Input resistance of a usual digital voltmeter [ohm] (generic class, no source).
inline constexpr double voltmeter_ohms = 10e6;

/// What a voltmeter shows at the sensor's connector [V], with `resistor_ohms` in place of the sensor or with the
/// connector pulled. The meter's own 10 Mohm lie beside it; without a stated pull-up they take nothing.
double volts_at_connector(const SensorInput& input, std::optional<double> resistor_ohms);

/// Relative change of those volts by a relative change of the resistor, Rp/(R + Rp) with the voltmeter beside R
/// [dimensionless].
double pull_up_part(const SensorInput& input, double resistor_ohms);

}  // namespace ohmwright::defrost_control
