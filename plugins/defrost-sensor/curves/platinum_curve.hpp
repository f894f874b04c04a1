#pragma once

#include <optional>
#include <string_view>

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

/// Tolerance classes of platinum sensors.
enum class PlatinumClass { aa, a, b, c };

/// The class written as in the standard: "AA", "A", "B", "C".
std::optional<PlatinumClass> platinum_class_named(std::string_view name);

/// Half-width of the temperature deviation that the class allows at `t` [K]:
/// AA 0.1 + 0.0017·|t|, A 0.15 + 0.002·|t|, B 0.3 + 0.005·|t|, C 0.6 + 0.01·|t|, t in °C. Source: IEC 60751:2022.
TemperatureDifference class_tolerance(PlatinumClass platinum_class, Temperature t);

/// Where the class holds for wire-wound elements: AA −50…250, A −100…450, B −196…600, C −196…600 °C.
/// Source: IEC 60751:2022 (from memory).
TemperatureSpan class_span(PlatinumClass platinum_class);

/// Platinum resistance thermometer: R = R0·(1 + A·t + B·t²), and below 0 °C also + C·(t − 100)·t³.
/// Source: IEC 60751:2022; A = 3.9083e−3, B = −5.775e−7, C = −4.183e−12.
class PlatinumCurve final : public Curve {
 public:
  /// `ice_point_resistance` is R0 at 0 °C: 100 ohm, 1000 ohm. Throws InputError when it is not positive.
  PlatinumCurve(Resistance ice_point_resistance, PlatinumClass platinum_class);

  TemperatureSpan domain() const override {
    return {Temperature::from_celsius(-200.0), Temperature::from_celsius(850.0)};
  }
  TemperatureSpan span() const override { return class_span(class_); }
  double log_resistance(Temperature t) const override;
  double log_slope(Temperature t) const override;
  std::optional<Temperature> temperature_at(double log_resistance) const override;
  /// Outside its class's range a sensor is trusted no better than class C.
  double model_error(Temperature t) const override;

  PlatinumClass platinum_class() const { return class_; }

 private:
  double log_ice_point_;
  PlatinumClass class_;
};

}  // namespace ohmwright::defrost_sensor
