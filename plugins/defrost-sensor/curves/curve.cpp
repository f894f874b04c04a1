#include "curves/curve.hpp"

#include <cmath>

namespace ohmwright::defrost_sensor {

Curve::~Curve() = default;

bool Curve::errs_to_one_side(Temperature /*t*/) const { return false; }

Resistance Curve::resistance(Temperature t) const { return Resistance::from_value(std::exp(log_resistance(t))); }

std::optional<Temperature> Curve::temperature(Resistance r) const {
  if (!(r.value() > 0.0)) return std::nullopt;
  return temperature_at(std::log(r.value()));
}

TemperatureSpan thermistor_domain() { return {Temperature::from_kelvin(150.0), Temperature::from_kelvin(500.0)}; }

}  // namespace ohmwright::defrost_sensor
