#include "curves/beta_curve.hpp"

#include <cmath>
#include <string>

#include <ohmwright/quantity/error.hpp>

#include "curves/guards.hpp"
#include "curves/slope_change.hpp"

namespace ohmwright::defrost_sensor {

BetaCurve::BetaCurve(const Figures& figures)
    : figures_(figures), log_reference_(std::log(figures.reference_resistance.value())) {
  require_positive(figures.reference_resistance);
  require_in_domain(figures.reference_temperature, thermistor_domain());
  require_plausible_beta(figures.beta_kelvin);
  require_rising(figures.defined_between, thermistor_domain());
  if (figures.stated_span) require_rising(*figures.stated_span, thermistor_domain());
}

double BetaCurve::log_resistance(Temperature t) const {
  return log_reference_ + figures_.beta_kelvin * (1.0 / t.kelvin() - 1.0 / figures_.reference_temperature.kelvin());
}

double BetaCurve::log_slope(Temperature t) const { return -figures_.beta_kelvin / (t.kelvin() * t.kelvin()); }

std::optional<Temperature> BetaCurve::temperature_at(double log_resistance) const {
  const double inverse =
      1.0 / figures_.reference_temperature.kelvin() + (log_resistance - log_reference_) / figures_.beta_kelvin;
  return temperature_from_inverse(inverse, domain());
}

double BetaCurve::model_error(Temperature t) const {
  if (figures_.stated_span && figures_.stated_span->contains(t)) return 0.0;
  const TemperatureSpan exact_at = span();
  return error_of_straight_line(t, exact_at.from, exact_at.to, figures_.beta_kelvin);
}

bool BetaCurve::errs_to_one_side(Temperature t) const { return bend_has_known_sense(t); }

}  // namespace ohmwright::defrost_sensor
