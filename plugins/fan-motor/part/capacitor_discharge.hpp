#pragma once

#include <ohmwright/quantity/units.hpp>

namespace ohmwright::fan_motor {

/// What may be touched without danger (IEC 60335-1 names 34 V, from memory).
inline constexpr double most_touchable_volts = 34.0;

/// How long a capacitor takes through a resistor from the peak of an alternating voltage, √2·`root_mean_square`, down
/// to `touchable` [s]: t = R·C·ln(√2·V/V0). 0 where the peak is no higher than that. Exponential decay of a discharge
/// through a resistor (Kirchhoff).
Duration discharge_time(Resistance resistor, const Capacitance& capacitor, Voltage root_mean_square,
                        Voltage touchable = Voltage::from_value(most_touchable_volts));

}  // namespace ohmwright::fan_motor
