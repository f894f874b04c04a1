#pragma once

#include <memory>
#include <optional>

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

/// The input of the control that reads the sensor: a pull-up and a converter, and the temperature it ends a defrost at.
struct Control {
  enum class SensorTo { ground, supply };

  Resistance pull_up;
  std::optional<Voltage> reference_voltage;
  std::optional<int> bits;  ///< of its converter
  SensorTo sensor_to = SensorTo::ground;
  std::optional<Temperature> termination_temperature;
  std::optional<TemperatureDifference> termination_tolerance;
  /// The curve that the control expects; null: that of the part's own ratings.
  std::shared_ptr<const Curve> curve;

  /// Share of the reference voltage at the input [0…1] for a sensor of resistance `r`.
  double share_of_reference(Resistance r) const;
  /// Resistance across the input that makes that share; nothing at or past the ends of the range.
  std::optional<Resistance> resistance_at(double share) const;
  /// Code of the converter, (2ⁿ − 1)·share rounded half up; nothing without a number of bits.
  std::optional<double> code(Resistance r) const;
  /// Temperature width of one code for the curve `expected`, at a sensor of resistance `r` [K].
  std::optional<double> kelvin_per_code(Resistance r, const Curve& expected) const;
};

}  // namespace ohmwright::defrost_sensor
