#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright::thermal {

/// What is wrong with a simulated appliance, by what it does to a log.
enum class SimulatedFault : std::uint8_t {
  none,
  no_heat,             ///< heater, limit, contact or wire to it open: the control defrosts, nothing warms
  weak_heat,           ///< one of two elements open, or a bad joint: half the power
  never_starts,        ///< timer motor open or control stuck: no defrost begins
  ends_late,           ///< the sensor reads too cold or the thermostat is welded: the time limit ends it
  ends_early,          ///< the sensor reads too warm or the thermostat opens too cold
  fan_stopped,         ///< no air over the coil
  door_ajar,           ///< warm moist air comes in all the time
  stuck_in_defrost,    ///< a defrost that never ends: heated to its end temperature, no compressor any more
  runs_while_heating,  ///< the compressor is not switched off for a defrost and cools against the heater
  little_cooling       ///< the compressor runs and brings too little
};

/// "none", "no-heat", …
std::string_view name_of(SimulatedFault fault);
std::optional<SimulatedFault> simulated_fault_named(std::string_view name);
std::span<const SimulatedFault> simulated_faults();

/// What a fault mode does to a log, by the symptoms that its kind states and the roles of its part; nothing where a log
/// would not show it, or where the model has no picture of it that others do not share. A part that moves air is taken
/// for the fan over the coil: whether it is one, the caller knows.
std::optional<SimulatedFault> effect_on_log(const FaultModeDescriptor& mode, std::span<const std::string_view> roles);

}  // namespace ohmwright::thermal
