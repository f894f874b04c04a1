#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// The voltage at the control's input, read live: the sensor as seen from the board, the load of the meter,
/// self-heating.
RuleDescriptor describe_volts_at_board();
void judge_volts_at_board(const Scene& scene);

/// Whether volts were read at the live sensor, and what feeds it is not known.
bool volts_lack_the_control(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
