#pragma once

#include <string>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright::testing {

/// What strays from the exact upright [ohm].
struct Strayed {
  double heater = 32.0;
  double contact = 0.0;  ///< more in the thermostat's contact: a part in series with it
  double splice = 0.0;   ///< more in the splice, likewise
};

/// The shipped upright with cam timer and thermostat as its file has it: kinds, connections, states. Its ratings are
/// made exact, the middle of hardly any tolerance and at the temperature at which they are read: contacts, splice and
/// lead 0.05 ohm, heater 32, timer motor 8000, compressor 6, fan 120; the line, its 0.05 ohm of neutral in the cord.
/// Test points are added between every two of its nodes ("D-X" in ohms) and from them to the plug's neutral ("D volts")
/// and earth ("N to earth").
Appliance exact_upright(const Strayed& strayed = {});

}  // namespace ohmwright::testing
