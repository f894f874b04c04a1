#include "rules/unit_slip.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/verdict/decision.hpp>

#include "rules/generic_classes.hpp"

namespace ohmwright::defrost_sensor {

namespace {

bool condemns_alone(const Scene& scene, const Deviation& deviation) {
  const double off = deviation.log.value();
  if (off >= deviation.limits.lower && off <= deviation.limits.upper) return false;  // the usual case, at no cost
  const Conformance alone =
      conformance_of(deviation.log, scene.evidence.sources(), deviation.limits.lower, deviation.limits.upper);
  return decide(alone, scene.settings.confidence) == Outcome::out_of_limits;
}

bool is_right_at(const SensorRatings& ratings, double ohms, double celsius) {
  const Temperature t = Temperature::from_celsius(celsius);
  if (celsius < coldest_celsius || celsius > hottest_celsius || !ratings.curve->domain().contains(t)) return false;
  const double off = std::log(ohms) - ratings.curve->log_resistance(t);
  const LogLimits limits = ratings.tolerance.at(*ratings.curve, t);
  return off >= limits.lower && off <= limits.upper;
}

double fahrenheit_of(const Deviation& deviation) { return deviation.temperature.celsius() * 1.8 + 32.0; }

/// What people read off a thermometer, in halves of a degree; nothing for what nobody types: -18 degC are -0.4 degF.
std::optional<double> in_halves(double degrees) {
  const double halves = std::round(2.0 * degrees);
  return std::abs(2.0 * degrees - halves) < 0.02 ? std::optional(0.5 * halves) : std::nullopt;
}

double in_tenths(double degrees) { return 0.1 * std::round(10.0 * degrees); }

/// Several readings at once are not right by accident: then the tenths count that a thermometer shows.
bool all_are_right_in_celsius(const Scene& scene) {
  return scene.usable.size() > 1 &&
         std::all_of(scene.usable.begin(), scene.usable.end(), [&](const Deviation& deviation) {
           return is_right_at(*scene.ratings, deviation.reading->value.value(), in_tenths(fahrenheit_of(deviation)));
         });
}

}  // namespace

std::optional<UnitSlip> unit_slip(const Scene& scene) {
  std::optional<bool> all_right;  // asked for only where one is condemned
  for (const Deviation& deviation : scene.usable) {
    if (!condemns_alone(scene, deviation)) continue;
    const double ohms = deviation.reading->value.value();
    const double celsius = deviation.temperature.celsius();
    if (is_right_at(*scene.ratings, ohms, (celsius - 32.0) / 1.8)) return UnitSlip{ohms, celsius, true};
    if (!all_right) all_right = all_are_right_in_celsius(scene);
    const double fahrenheit = fahrenheit_of(deviation);
    const std::optional<double> typed = *all_right ? in_tenths(fahrenheit) : in_halves(fahrenheit);
    if (typed && is_right_at(*scene.ratings, ohms, *typed)) return UnitSlip{ohms, *typed, false};
  }
  return std::nullopt;
}

}  // namespace ohmwright::defrost_sensor
