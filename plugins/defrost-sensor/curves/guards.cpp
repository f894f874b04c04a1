#include "curves/guards.hpp"

#include <array>
#include <cmath>
#include <cstdio>
#include <string>

#include <ohmwright/quantity/error.hpp>

#include "curves/slope_change.hpp"

namespace ohmwright::defrost_sensor {

namespace {

std::string number(double value) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%.6g", value);
  return text.data();
}

std::string celsius(Temperature t) { return number(t.celsius()) + " degC"; }

std::string celsius(TemperatureSpan span) { return celsius(span.from) + " to " + celsius(span.to); }

}  // namespace

void require_positive(Resistance r) {
  if (!(r.value() > 0.0) || !std::isfinite(r.value()))
    throw InputError("a resistance of " + number(r.value()) + " ohm is no sensor; write one above 0 ohm");
}

void require_in_domain(Temperature t, TemperatureSpan domain) {
  if (!domain.contains(t))
    throw InputError(celsius(t) + " is outside what this curve can be used for, " + celsius(domain) +
                     "; check the unit");
}

void require_rising(TemperatureSpan span, TemperatureSpan domain) {
  require_in_domain(span.from, domain);
  require_in_domain(span.to, domain);
  if (!(span.from < span.to))
    throw InputError("the span " + celsius(span) + " does not rise; write the colder temperature first");
}

void require_plausible_beta(double beta_kelvin) {
  if (!(beta_kelvin >= smallest_beta_kelvin && beta_kelvin <= largest_beta_kelvin))
    throw InputError("a slope (beta) of " + number(beta_kelvin) + " K is no thermistor's; expected " +
                     number(smallest_beta_kelvin) + " K to " + number(largest_beta_kelvin) + " K");
}

void require_plausible_slope(const Curve& curve) {
  const TemperatureSpan span = curve.span();
  const Temperature middle = Temperature::from_kelvin(0.5 * (span.from.kelvin() + span.to.kelvin()));
  for (const Temperature t : {span.from, middle, span.to}) require_plausible_beta(local_beta(curve, t));
}

std::optional<Temperature> temperature_from_inverse(double inverse_kelvin, TemperatureSpan domain) {
  if (!(inverse_kelvin > 0.0)) return std::nullopt;
  const Temperature t = Temperature::from_kelvin(1.0 / inverse_kelvin);
  if (!domain.contains(t)) return std::nullopt;
  return t;
}

}  // namespace ohmwright::defrost_sensor
