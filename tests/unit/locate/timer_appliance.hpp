#pragma once

#include <string_view>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/component/meter.hpp>

namespace ohmwright::locate::testing {

/// A refrigerator with cam timer and thermostat, as a network of bench kinds: L-D defrost contact, L-R run contact
/// 0.05 ohm, D-X thermostat 0.05 (cold), X-H1 splice 0.05, H1-H2 heater 32, H2-N lead 0.05, L-N timer motor 8000, R-N
/// compressor 6 and R-N fan 120. Found in defrost, coil cold. Test points between D, X, H1, H2, L, N and R in ohms
/// ("D-X"), volts to N ("D volts") and the current of the heater; set-ups "timer-to-run" and "warmed".
Appliance timer_appliance(double tolerance = 0.05);

std::size_t part_named(const Appliance& appliance, std::string_view id);
std::size_t test_point_named(const Appliance& appliance, std::string_view id);
std::size_t set_up_named(const Appliance& appliance, std::string_view id);

/// A meter that is right to a millionth of the reading and has leads of no resistance.
Meter exact_meter();

/// A hand-held meter of 6000 counts.
Meter hand_meter();

}  // namespace ohmwright::locate::testing
