#include "compare/difference.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::defrost_sensor {

std::span<const ErrorSource> curve_errors() {
  static const std::array<ErrorSource, 2> sources{
      {{"curve-of-the-original", "", Shape::rectangular}, {"curve-of-the-candidate", "", Shape::rectangular}}};
  return sources;
}

void add_curve_error(Estimate& log, const Curve& curve, CurveErrorIndex source, Temperature t, double factor) {
  double half_width = factor * curve.model_error(t);
  if (half_width == 0.0) return;
  if (curve.errs_to_one_side(t)) {
    half_width *= 0.5;
    log.shift(half_width);
  }
  log.add_term(source, half_width / std::numbers::sqrt3);
}

double Difference::farthest() const {
  double reach = 0.0;
  for (const Term& term : estimate.terms()) reach += std::numbers::sqrt3 * std::abs(term.standard_uncertainty);
  return std::abs(estimate.value()) + reach;
}

Difference difference_at(const Pair& pair, Temperature t) {
  const Curve& original = *pair.original.curve;
  const Curve& candidate = *pair.candidate.curve;
  Difference found;
  found.at = t;
  found.log = candidate.log_resistance(t) - original.log_resistance(t);
  found.allowed = pair.original.tolerance.at(original, t);
  found.estimate = Estimate(found.log);
  add_curve_error(found.estimate, original, original_curve, t, -1.0);
  add_curve_error(found.estimate, candidate, candidate_curve, t, 1.0);
  const Conformance conformance =
      conformance_of(found.estimate, curve_errors(), found.allowed.lower, found.allowed.upper);
  found.within = conformance.within;
  found.outcome = decide(conformance, comparison_confidence);
  if (const std::optional<Temperature> seen = original.temperature_at(candidate.log_resistance(t)))
    found.kelvin = *seen - t;
  return found;
}

bool falls(const Curve& curve) {
  const TemperatureSpan span = curve.span();
  return curve.log_slope(Temperature::from_kelvin(0.5 * (span.from.kelvin() + span.to.kelvin()))) < 0.0;
}

}  // namespace ohmwright::defrost_sensor
