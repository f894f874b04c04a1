#include "rules/deviation.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ohmwright::defrost_sensor {

namespace {

constexpr double sqrt3 = std::numbers::sqrt3;

Temperature within(TemperatureSpan domain, double kelvin) {
  return Temperature::from_kelvin(std::clamp(kelvin, domain.from.kelvin(), domain.to.kelvin()));
}

}  // namespace

double temperature_half_width(const Estimate& temperature) { return sqrt3 * temperature.standard_uncertainty(); }

Estimate nominal_log_resistance(const Curve& curve, const Estimate& temperature) {
  const double reach = temperature_half_width(temperature);
  if (reach == 0.0) return Estimate(curve.log_resistance(Temperature::from_kelvin(temperature.value())));
  const Temperature colder = within(curve.domain(), temperature.value() - reach);
  const Temperature warmer = within(curve.domain(), temperature.value() + reach);
  const double at_colder = curve.log_resistance(colder);
  const double at_warmer = curve.log_resistance(warmer);
  Estimate nominal(0.5 * (at_colder + at_warmer));
  nominal.add_uncertainty(temperature, (at_warmer - at_colder) / (warmer - colder).value());
  return nominal;
}

std::optional<Deviation> deviation_of(const SensorRatings& ratings, const PreparedReading& reading,
                                      ConditionIndex condition) {
  const Estimate* temperature = reading.condition(condition);
  if (temperature == nullptr || reading.shown != Shown::value || !(reading.value.value() > 0.0)) return std::nullopt;
  const Curve& curve = *ratings.curve;
  std::optional<Deviation> found(std::in_place, reading);
  found->temperature = Temperature::from_kelvin(temperature->value());
  if (!curve.domain().contains(found->temperature)) return std::nullopt;
  found->log_read = std::log(reading.value.value());
  found->log = Estimate(found->log_read);
  found->log.add_uncertainty(reading.value, 1.0 / reading.value.value());
  found->log.add_scaled(nominal_log_resistance(curve, *temperature), -1.0);
  const double model_error = curve.model_error(found->temperature);
  if (model_error != 0.0) found->log.add_term(Evidence::model_source, -model_error / sqrt3);
  found->limits = ratings.tolerance.at(curve, found->temperature);
  found->log_nominal = curve.log_resistance(found->temperature);
  return found;
}

TemperatureDifference Deviation::kelvin(const Curve& curve) const {
  const std::optional<Temperature> seen = curve.temperature_at(log_nominal + shown_log());
  if (seen) return *seen - temperature;
  return TemperatureDifference::from_value(shown_log() / curve.log_slope(temperature));
}

}  // namespace ohmwright::defrost_sensor
