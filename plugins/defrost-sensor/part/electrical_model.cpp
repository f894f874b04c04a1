#include "part/electrical_model.hpp"

#include <algorithm>
#include <cmath>

#include "descriptor/descriptor.hpp"
#include "rules/generic_classes.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_sensor {

namespace {

/// Share of the time that one which comes and goes conducts (assumed, no source).
constexpr double share_closed = 0.5;
/// Leads or a chip that touch (assumed); what reads more is bridged by something that conducts badly.
constexpr double most_of_a_short_ohms = 100.0;

/// A resistance between two ends [ohm].
struct Between {
  double low;
  double high;
};

Between good_at(const SensorRatings& ratings, Temperature t) {
  const double nominal = ratings.curve->resistance(t).value();
  const LogLimits limits = ratings.tolerance.at(*ratings.curve, t);
  const double model_error = std::abs(ratings.curve->model_error(t));
  return {nominal * std::exp(limits.lower - model_error), nominal * std::exp(limits.upper + model_error)};
}

Between good_between(const SensorRatings& ratings, Temperature colder, Temperature warmer) {
  const Between a = good_at(ratings, std::max(colder, ratings.curve->domain().from));
  const Between b = good_at(ratings, std::min(warmer, ratings.curve->domain().to));
  return {std::min(a.low, b.low), std::max(a.high, b.high)};
}

Between beside(Between r, double path_low, double path_high) {
  return {r.low * path_low / (r.low + path_low), r.high * path_high / (r.high + path_high)};
}

/// How far each fault goes; assumed, no source. Together they leave no gap: whatever a sensor alone reads, from nothing
/// to OL, is good or one of these.
Between faulty(const SensorRatings& ratings, std::uint16_t fault_mode, Between good, Temperature colder,
               Temperature warmer) {
  const auto off = [](double kelvin) { return TemperatureDifference::from_value(kelvin); };
  constexpr double least_of_another_curve = 0.2;
  const double most_of_a_short = std::min(most_of_a_short_ohms, 0.1 * good.low);
  switch (fault_mode) {
    case fault_short:
      return {0.0, most_of_a_short};
    case fault_far_too_low:
      return {most_of_a_short, least_of_another_curve * good.low};
    case fault_drift_high:
      return {1.1 * good.low, 1.8 * good.high};
    case fault_drift_low:
      return {0.5 * good.low, 0.9 * good.high};
    case fault_leakage:
      return beside(good, 30e3, 500e3);
    case fault_series_resistance:
      return {good.low + 200.0, good.high + 1e6};
    case fault_wrong_curve:
      return {least_of_another_curve * good.low, 5.0 * good.high};
    case fault_misplaced:  // in the air beside the coil, or against the warm side
      return good_between(ratings, colder + off(2.0), warmer + off(10.0));
    default:
      return good;
  }
}

}  // namespace

ModelAnswer append_model(const SensorRatings* ratings, std::uint16_t fault_mode, const Situation& situation,
                         std::vector<Element>& elements) {
  if (fault_mode == fault_open || (fault_mode == fault_short && ratings == nullptr)) {
    elements.push_back(fault_mode == fault_open ? open_between(0, 1) : closed_between(0, 1));
    return ModelAnswer::stated;
  }
  if (ratings == nullptr) return ModelAnswer::unknown;
  Temperature colder = Temperature::from_celsius(coldest_celsius);
  Temperature warmer = Temperature::from_celsius(hottest_celsius);
  const std::optional<double> kelvin = situation.condition(part_temperature);
  if (kelvin && ratings->curve->domain().contains(Temperature::from_kelvin(*kelvin)))
    colder = warmer = Temperature::from_kelvin(*kelvin);
  const Between r = faulty(*ratings, fault_mode, good_between(*ratings, colder, warmer), colder, warmer);
  elements.push_back(fault_mode == fault_intermittent ? contact_between(0, 1, r.low, r.high, share_closed)
                                                      : resistance_between(0, 1, r.low, r.high));
  return ModelAnswer::stated;
}

}  // namespace ohmwright::defrost_sensor
