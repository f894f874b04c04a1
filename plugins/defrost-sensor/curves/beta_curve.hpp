#pragma once

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

/// The two-parameter thermistor equation R(T) = R0·exp(B·(1/T − 1/T0)).
/// Source: IEC 60539-1 (zero-power resistance, B-value; from memory).
class BetaCurve final : public Curve {
 public:
  struct Figures {
    Resistance reference_resistance;
    Temperature reference_temperature = Temperature::from_celsius(25.0);
    double beta_kelvin = 0.0;
    /// The two temperatures that define the B-value: B25/85 names 25 °C and 85 °C. Exact there, and only there.
    TemperatureSpan defined_between{Temperature::from_celsius(25.0), Temperature::from_celsius(85.0)};
    /// Where the ratings vouch for the equation; empty when they do not say.
    std::optional<TemperatureSpan> stated_span;
  };

  /// Throws InputError for a resistance ≤ 0, a B-value outside 1000…8000 K, or a span that does not rise.
  explicit BetaCurve(const Figures& figures);

  TemperatureSpan domain() const override { return thermistor_domain(); }
  TemperatureSpan span() const override { return figures_.stated_span.value_or(figures_.defined_between); }
  double log_resistance(Temperature t) const override;
  double log_slope(Temperature t) const override;
  std::optional<Temperature> temperature_at(double log_resistance) const override;
  double model_error(Temperature t) const override;
  bool errs_to_one_side(Temperature t) const override;

  double beta_kelvin() const { return figures_.beta_kelvin; }

 private:
  Figures figures_;
  double log_reference_;
};

}  // namespace ohmwright::defrost_sensor
