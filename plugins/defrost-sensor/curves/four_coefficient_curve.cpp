#include "curves/four_coefficient_curve.hpp"

#include <cmath>

#include <ohmwright/quantity/error.hpp>

#include "curves/guards.hpp"
#include "curves/inversion.hpp"
#include "curves/slope_change.hpp"

namespace ohmwright::defrost_sensor {

FourCoefficientCurve::FourCoefficientCurve(const Coefficients& coefficients, TemperatureSpan span)
    : coefficients_(coefficients),
      span_(span),
      domain_(span),
      log_reference_(std::log(coefficients.reference_resistance.value())) {
  require_positive(coefficients.reference_resistance);
  require_rising(span, thermistor_domain());
  require_plausible_slope(*this);
  const Temperature reached = farthest_falling(span.from, span.to);
  if (reached < span.to)
    throw InputError("with these coefficients the resistance rises at " + std::to_string(reached.celsius()) +
                     " degC, inside the span; check the coefficients and their order");
  domain_ = {farthest_falling(span.from, thermistor_domain().from), farthest_falling(span.to, thermistor_domain().to)};
}

/// Walks from a temperature to another and stops before the resistance stops falling.
Temperature FourCoefficientCurve::farthest_falling(Temperature from, Temperature to) const {
  constexpr double step = 0.5;
  const double sign = to < from ? -1.0 : 1.0;
  double reached = from.kelvin();
  while (reached != to.kelvin()) {
    const double next = std::abs(to.kelvin() - reached) <= step ? to.kelvin() : reached + sign * step;
    if (slope_at_inverse(1.0 / next) < smallest_beta_kelvin) break;
    reached = next;
  }
  return Temperature::from_kelvin(reached);
}

double FourCoefficientCurve::log_at_inverse(double inverse_kelvin) const {
  return log_reference_ + coefficients_.a +
         inverse_kelvin * (coefficients_.b + inverse_kelvin * (coefficients_.c + inverse_kelvin * coefficients_.d));
}

double FourCoefficientCurve::slope_at_inverse(double inverse_kelvin) const {
  return coefficients_.b + inverse_kelvin * (2.0 * coefficients_.c + 3.0 * inverse_kelvin * coefficients_.d);
}

double FourCoefficientCurve::log_resistance(Temperature t) const { return log_at_inverse(1.0 / t.kelvin()); }

double FourCoefficientCurve::log_slope(Temperature t) const {
  return -slope_at_inverse(1.0 / t.kelvin()) / (t.kelvin() * t.kelvin());
}

std::optional<Temperature> FourCoefficientCurve::temperature_at(double log_resistance) const {
  const std::optional<double> x = invert_rising(
      [this](double inverse) {
        return ValueAndSlope{log_at_inverse(inverse), slope_at_inverse(inverse)};
      },
      log_resistance, 1.0 / domain_.to.kelvin(), 1.0 / domain_.from.kelvin());
  return x ? temperature_from_inverse(*x, domain_) : std::nullopt;
}

double FourCoefficientCurve::model_error(Temperature t) const { return error_outside_span(*this, t); }

}  // namespace ohmwright::defrost_sensor
