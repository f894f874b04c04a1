#pragma once

#include <optional>

#include "rules/scene.hpp"

namespace ohmwright::bimetal_thermostat {

/// The digits of a temperature that condemned the part, in the unit in which its state would be right.
struct UnitSlip {
  double degrees = 0.0;
  bool fahrenheit = false;
};

/// Whether the last condemned state would be right were the digits of its temperature degrees Fahrenheit and not
/// Celsius: closed at 32. Not in the temperatures of a room. Or the reverse, where the digits are whole in °F alone:
/// -10 °C is as often meant as it is 14 °F.
std::optional<UnitSlip> unit_slip(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
