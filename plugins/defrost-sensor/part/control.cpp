#include "part/control.hpp"

#include <cmath>

namespace ohmwright::defrost_sensor {

double Control::share_of_reference(Resistance r) const {
  const double of_sensor = r / (r + pull_up);
  return sensor_to == SensorTo::ground ? of_sensor : 1.0 - of_sensor;
}

std::optional<Resistance> Control::resistance_at(double share) const {
  const double of_sensor = sensor_to == SensorTo::ground ? share : 1.0 - share;
  if (!(of_sensor > 0.0 && of_sensor < 1.0)) return std::nullopt;
  return pull_up * (of_sensor / (1.0 - of_sensor));
}

std::optional<double> Control::code(Resistance r) const {
  if (!bits) return std::nullopt;
  return std::floor((std::ldexp(1.0, *bits) - 1.0) * share_of_reference(r) + 0.5);
}

std::optional<double> Control::kelvin_per_code(Resistance r, const Curve& expected) const {
  if (!bits) return std::nullopt;
  const std::optional<Temperature> t = expected.temperature(r);
  if (!t) return std::nullopt;
  const double of_sensor = r / (r + pull_up);
  // d(share)/d ln R = share·(1 − share)
  const double share_per_kelvin = of_sensor * (1.0 - of_sensor) * std::abs(expected.log_slope(*t));
  return 1.0 / ((std::ldexp(1.0, *bits) - 1.0) * share_per_kelvin);
}

}  // namespace ohmwright::defrost_sensor
