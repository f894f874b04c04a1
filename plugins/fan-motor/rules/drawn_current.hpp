#pragma once

#include <cstdint>

#include <ohmwright/component/measured.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

/// What the current of a running motor says of it.
enum class Drawn : std::uint8_t {
  right,
  right_at_other_volts,
  too_much,
  too_much_perhaps_held,       ///< one whose wheel is held draws so as well
  too_much_perhaps_capacitor,  ///< beside a bad run capacitor a good one draws so as well
  too_much_volts_unknown,
  too_much_at_other_volts,
  too_little,
  too_little_perhaps_air,  ///< blocked air and a loose wheel take its load away
  too_little_volts_unknown,
  too_little_at_low_volts,
  at_other_frequency,  ///< what a good one draws there is not known
  unsure,
};

/// A current against the rated one with its tolerance, and the volts it was drawn at.
struct DrawnCurrent {
  Measured measured;
  Drawn says = Drawn::unsure;

  /// Whether what it says is a ground for a verdict.
  bool settled() const {
    return says == Drawn::right || says == Drawn::too_much || says == Drawn::too_little || says == Drawn::unsure;
  }
};

/// Its limits make room for what volts from 90 % to 110 % of the rated ones do alone. Too little or too much condemns
/// only where its volts were read and are such; too little only where coil, ducts and wheel were said to be clear, too
/// much only where its wheel is free and no run capacitor is in doubt; at other volts what a good one draws is not
/// known. The ratings must state a current.
DrawnCurrent drawn_current(const Scene& scene, const PreparedReading& reading);

}  // namespace ohmwright::fan_motor
