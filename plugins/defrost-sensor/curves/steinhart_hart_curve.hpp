#pragma once

#include <array>

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

/// 1/T = A + B·L + C·L³, L = ln(R/unit).
/// Source: Steinhart and Hart, "Calibration curves for thermistors", Deep-Sea Research 15 (1968) 497–503 (from memory).
class SteinhartHartCurve final : public Curve {
 public:
  struct Coefficients {
    double a = 0.0;  ///< [1/K]
    double b = 0.0;  ///< [1/K]
    double c = 0.0;  ///< [1/K]
    /// What R is divided by before the logarithm. The form is not scale-free: a set fitted in kilohms is another curve.
    Resistance unit = Resistance::from_value(1.0);
  };

  /// Throws InputError unless b > 0 and c > 0 (else the curve is not monotonic), the unit is positive, the span rises,
  /// and the slope over it is a thermistor's.
  SteinhartHartCurve(const Coefficients& coefficients, TemperatureSpan span);

  /// Through three points, fitted in ohms; its span reaches from the coldest to the hottest.
  /// Throws InputError as above, or when two points share a temperature or resistance.
  static Coefficients through(const std::array<CurvePoint, 3>& points);

  TemperatureSpan domain() const override { return thermistor_domain(); }
  TemperatureSpan span() const override { return span_; }
  double log_resistance(Temperature t) const override;
  double log_slope(Temperature t) const override;
  std::optional<Temperature> temperature_at(double log_resistance) const override;
  double model_error(Temperature t) const override;

  const Coefficients& coefficients() const { return coefficients_; }

 private:
  double log_in_unit(Temperature t) const;

  Coefficients coefficients_;
  TemperatureSpan span_;
  double log_unit_;
};

}  // namespace ohmwright::defrost_sensor
