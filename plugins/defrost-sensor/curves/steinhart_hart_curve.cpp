#include "curves/steinhart_hart_curve.hpp"

#include <cmath>

#include <ohmwright/quantity/error.hpp>

#include "curves/guards.hpp"
#include "curves/slope_change.hpp"

namespace ohmwright::defrost_sensor {

SteinhartHartCurve::SteinhartHartCurve(const Coefficients& coefficients, TemperatureSpan span)
    : coefficients_(coefficients), span_(span), log_unit_(std::log(coefficients.unit.value())) {
  require_positive(coefficients.unit);
  require_rising(span, thermistor_domain());
  if (!(coefficients.b > 0.0) || !(coefficients.c > 0.0))
    throw InputError(
        "Steinhart-Hart needs b > 0 and c > 0, or the curve turns back on itself; check the coefficients and their "
        "order (with c = 0 the form is \"beta\")");
  require_plausible_slope(*this);
}

SteinhartHartCurve::Coefficients SteinhartHartCurve::through(const std::array<CurvePoint, 3>& points) {
  std::array<double, 3> l{};
  std::array<double, 3> y{};
  for (std::size_t i = 0; i < 3; ++i) {
    require_positive(points[i].resistance);
    l[i] = std::log(points[i].resistance.value());
    y[i] = 1.0 / points[i].temperature.kelvin();
  }
  if (l[0] == l[1] || l[0] == l[2] || l[1] == l[2] || y[0] == y[1] || y[0] == y[2] || y[1] == y[2])
    throw InputError("three points of a curve need three temperatures and three resistances that differ");
  // Divided differences of the 3×3 system, which is nearly singular when written out.
  const double first = (y[1] - y[0]) / (l[1] - l[0]);
  const double second = (y[2] - y[0]) / (l[2] - l[0]);
  Coefficients found;
  found.c = (second - first) / (l[2] - l[1]) / (l[0] + l[1] + l[2]);
  found.b = first - found.c * (l[0] * l[0] + l[0] * l[1] + l[1] * l[1]);
  found.a = y[0] - (found.b + found.c * l[0] * l[0]) * l[0];
  return found;
}

double SteinhartHartCurve::log_in_unit(Temperature t) const {
  const auto& [a, b, c, unit] = coefficients_;
  const double inverse = 1.0 / t.kelvin();
  const double y = (a - inverse) / c;
  const double x = std::sqrt(std::pow(b / (3.0 * c), 3) + 0.25 * y * y);
  double l = std::cbrt(x - 0.5 * y) - std::cbrt(x + 0.5 * y);
  // The two roots nearly cancel when c is small: one Newton step on the equation itself restores the digits.
  l -= (a + l * (b + c * l * l) - inverse) / (b + 3.0 * c * l * l);
  return l;
}

double SteinhartHartCurve::log_resistance(Temperature t) const { return log_in_unit(t) + log_unit_; }

double SteinhartHartCurve::log_slope(Temperature t) const {
  const double l = log_in_unit(t);
  return -1.0 / (t.kelvin() * t.kelvin() * (coefficients_.b + 3.0 * coefficients_.c * l * l));
}

std::optional<Temperature> SteinhartHartCurve::temperature_at(double log_resistance) const {
  const double l = log_resistance - log_unit_;
  return temperature_from_inverse(coefficients_.a + l * (coefficients_.b + coefficients_.c * l * l), domain());
}

double SteinhartHartCurve::model_error(Temperature t) const { return error_outside_span(*this, t); }

}  // namespace ohmwright::defrost_sensor
