#pragma once

#include <vector>

#include <ohmwright/component/electrical.hpp>

#include "part/sensor_ratings.hpp"

namespace ohmwright::defrost_sensor {

/// Appends what lies between the two leads for a fault mode, or `not_found` for a healthy sensor.
///
/// Open and short need nothing; every other mode needs ratings, and without a temperature the sensor may be anywhere
/// between the coldest and the hottest of an appliance. How far a fault goes is assumed, with a wide tolerance.
ModelAnswer append_model(const SensorRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements);

}  // namespace ohmwright::defrost_sensor
