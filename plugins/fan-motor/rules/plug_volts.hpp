#pragma once

#include <cstdint>
#include <optional>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/repeated_readings.hpp>

#include "part/fan_motor_ratings.hpp"

namespace ohmwright::fan_motor {

/// How the volts at its plug stand to those it is made for. What a good motor draws and how fast it turns is known
/// from 90 % to 110 % of them, what a supply may be off by (IEC 60038, from memory).
enum class VoltsLevel : std::uint8_t {
  unknown,       ///< not read live, or nobody knows for how many it is made
  far_too_low,   ///< at most half: it is not fed
  low,           ///< below 90 %
  right,         ///< 90 % to 110 %
  high,          ///< above 110 %
  far_too_high,  ///< above 115 %: no fault of the supply alone, it is another motor or another supply
};

/// The volts at its plug while it should run.
struct PlugVolts {
  const PreparedReading* reading = nullptr;  ///< the last that was read live; null: none, or they contradict each other
  VoltsLevel level = VoltsLevel::unknown;
  double share = 1.0;                  ///< of the rated volts; 1 where they are not known
  double volt = 0.0;                   ///< what the meter showed, with its sign [V]
  std::optional<FarApart> apart = {};  ///< they contradict each other, and none is far too high: then they say nothing

  bool are_low() const { return level == VoltsLevel::low || level == VoltsLevel::far_too_low; }
  bool are_far_too_high() const { return level == VoltsLevel::far_too_high; }
  /// They are known, and others than those at which what it draws is rated.
  bool are_off() const { return level != VoltsLevel::unknown && level != VoltsLevel::right; }
  /// A motor that gets them should turn.
  bool feed() const;
};

/// What was read at the plug of a motor of these ratings (null: none are known).
PlugVolts plug_volts(const FanMotorRatings* ratings, const Evidence& evidence);

}  // namespace ohmwright::fan_motor
