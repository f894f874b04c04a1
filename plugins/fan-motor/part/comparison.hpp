#pragma once

#include <vector>

#include <ohmwright/component/comparison.hpp>

#include "part/fan_motor_ratings.hpp"

namespace ohmwright::fan_motor {

/// Whether one fan motor can stand in for another: build, volts, frequency, speed, sense of rotation, current, size,
/// tachometer. Null ratings: nothing can be compared.
std::vector<EquivalenceFinding> compare_fan_motors(const FanMotorRatings* original, const FanMotorRatings* candidate,
                                                   const ComparisonContext& context);

}  // namespace ohmwright::fan_motor
