#pragma once

#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/angular_velocity.hpp>
#include <boost/units/systems/si/capacitance.hpp>
#include <boost/units/systems/si/current.hpp>
#include <boost/units/systems/si/dimensionless.hpp>
#include <boost/units/systems/si/electric_potential.hpp>
#include <boost/units/systems/si/energy.hpp>
#include <boost/units/systems/si/frequency.hpp>
#include <boost/units/systems/si/inductance.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/mass.hpp>
#include <boost/units/systems/si/power.hpp>
#include <boost/units/systems/si/resistance.hpp>
#include <boost/units/systems/si/temperature.hpp>
#include <boost/units/systems/si/time.hpp>

namespace ohmwright {

namespace units = boost::units;
namespace si = boost::units::si;

using Resistance = units::quantity<si::resistance>;
using Voltage = units::quantity<si::electric_potential>;
using Current = units::quantity<si::current>;
using Power = units::quantity<si::power>;
using Energy = units::quantity<si::energy>;
using Frequency = units::quantity<si::frequency>;
using Capacitance = units::quantity<si::capacitance>;
using Inductance = units::quantity<si::inductance>;
using Duration = units::quantity<si::time>;
using RotationalSpeed = units::quantity<si::angular_velocity>;
using Mass = units::quantity<si::mass>;
using Length = units::quantity<si::length>;
using Ratio = units::quantity<si::dimensionless>;

/// A difference of temperatures, or an uncertainty of one. A point on the scale is a `Temperature` (temperature.hpp).
using TemperatureDifference = units::quantity<si::temperature>;

}  // namespace ohmwright
