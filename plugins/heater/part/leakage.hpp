#pragma once

#include <optional>

#include <ohmwright/quantity/units.hpp>

#include "part/heater_ratings.hpp"

namespace ohmwright::heater {

/// Most leakage current of a new stationary heating appliance [A]: class I 0.75 mA, or 0.75 mA for each rated kilowatt
/// where that is more, at most 5 mA; class II 0.25 mA, class III 0.5 mA; where the class is not stated, that of class
/// I. Alternating current: what its capacitance passes is in it. Source: IEC 60335-1, 13.2 and 16.2 (as quoted of the
/// text of 2001 with amendment 1 of 2004).
Current most_leakage(EarthClass earth_class, std::optional<Power> rated);

/// The insulation that passes that current at that voltage [ohm]: R = V/I (Ohm), capacitance left out.
Resistance insulation_that_leaks(Voltage voltage, const Current& leakage);

/// What an insulation passes at that voltage [A]: I = V/R (Ohm), capacitance left out.
Current leakage_through(Voltage voltage, Resistance insulation);

}  // namespace ohmwright::heater
