#pragma once

#include <optional>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "part/heater_ratings.hpp"

namespace ohmwright::heater {

/// What the element takes when it heats, brought to its rated voltage, and how that stands to its limits.
struct Load {
  const PreparedReading* reading = nullptr;
  double line_volt = 0.0;
  bool at_element = false;  ///< the volts were read across its own leads: nothing on the way can lower them
  bool whole_plug = false;  ///< watts of all that runs on the plug: the element makes these at most
  /// The volts are so far from the rated ones that the square no longer holds: nothing is judged.
  bool far_from_rated = false;
  Estimate rated_power;  ///< P·(Vr/V)² or I·Vr²/V [W]
  double lower = 0.0;    ///< [W]
  double upper = 0.0;    ///< [W]
  Conformance p;
  Outcome outcome = Outcome::undecided;

  bool too_much() const { return rated_power.value() > upper; }
  /// More than it should be, and other things on the plug may make the difference.
  bool others_may_draw() const { return whole_plug && too_much(); }
  /// Less than it should be, its volts read elsewhere: a joint on the way to it may take the rest.
  bool joint_may_take() const {
    return !at_element && outcome != Outcome::within_limits && rated_power.value() < lower;
  }
};

/// Whether the reading tells what the element draws. A reading in watts is one of a plugged-in appliance, also where
/// nobody said so: there are none without power.
bool is_under_load(const PreparedReading& reading);

/// The last reading of amperes or watts under load whose volts are known; empty where the rated power is not known.
std::optional<Load> load_of(const HeaterRatings& ratings, const Evidence& evidence, const JudgeSettings& settings);

}  // namespace ohmwright::heater
