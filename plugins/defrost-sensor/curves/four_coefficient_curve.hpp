#pragma once

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

/// R = Rref·exp(A + B/T + C/T² + D/T³), as component sheets give it.
class FourCoefficientCurve final : public Curve {
 public:
  struct Coefficients {
    Resistance reference_resistance;
    double a = 0.0;
    double b = 0.0;  ///< [K]
    double c = 0.0;  ///< [K²]
    double d = 0.0;  ///< [K³]
  };

  /// Throws InputError unless the resistance is positive, the span rises, and R falls all over it with a thermistor's
  /// slope. Past the span the domain ends where R would stop falling.
  FourCoefficientCurve(const Coefficients& coefficients, TemperatureSpan span);

  TemperatureSpan domain() const override { return domain_; }
  TemperatureSpan span() const override { return span_; }
  double log_resistance(Temperature t) const override;
  double log_slope(Temperature t) const override;
  std::optional<Temperature> temperature_at(double log_resistance) const override;
  double model_error(Temperature t) const override;

 private:
  double log_at_inverse(double inverse_kelvin) const;
  double slope_at_inverse(double inverse_kelvin) const;  ///< d ln R / d(1/T) [K]
  Temperature farthest_falling(Temperature from, Temperature to) const;

  Coefficients coefficients_;
  TemperatureSpan span_;
  TemperatureSpan domain_;
  double log_reference_;
};

}  // namespace ohmwright::defrost_sensor
