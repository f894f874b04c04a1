#pragma once

#include <optional>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// A value that would be right, had its temperature been in the other unit.
struct UnitSlip {
  double ohms = 0.0;
  double degrees = 0.0;  ///< the same digits
  bool fahrenheit = false;
};

/// Whether a reading that condemns the part alone would be right were the digits of its temperature degrees Fahrenheit
/// and not Celsius, or the reverse. Only temperatures that an appliance has, from -40 to 60 °C, are tried.
std::optional<UnitSlip> unit_slip(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
