#include "curves/slope_change.hpp"

#include <cmath>

namespace ohmwright::defrost_sensor {

bool bend_has_known_sense(Temperature t) {
  constexpr double hottest_celsius = 90.0;
  return t <= Temperature::from_celsius(hottest_celsius);
}

double error_of_straight_line(Temperature t, Temperature a, Temperature b, double beta_kelvin) {
  const double x = 1.0 / t.kelvin();
  const double xa = 1.0 / a.kelvin();
  const double xb = 1.0 / b.kelvin();
  const double curvature = std::log(x / xa) - (x - xa) * std::log(xb / xa) / (xb - xa);
  return slope_change_per_kelvin * beta_kelvin * curvature;
}

double error_between_rows(Temperature t, Temperature cold, Temperature hot) {
  const double x = 1.0 / t.kelvin();
  return 0.5 * largest_bend_kelvin_squared * (x - 1.0 / hot.kelvin()) * (1.0 / cold.kelvin() - x);
}

double error_past_edge(Temperature t, Temperature edge, double beta_kelvin) {
  const double ratio = edge.kelvin() / t.kelvin();
  return slope_change_per_kelvin * beta_kelvin * (std::log(ratio) - (ratio - 1.0));
}

double error_outside_span(const Curve& curve, Temperature t) {
  const TemperatureSpan span = curve.span();
  if (span.contains(t)) return 0.0;
  const Temperature edge = t < span.from ? span.from : span.to;
  return error_past_edge(t, edge, local_beta(curve, edge));
}

double local_beta(const Curve& curve, Temperature t) { return -t.kelvin() * t.kelvin() * curve.log_slope(t); }

}  // namespace ohmwright::defrost_sensor
