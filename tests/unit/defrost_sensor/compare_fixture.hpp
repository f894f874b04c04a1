#pragma once

#include <stdexcept>

#include "compare/compare_sensors.hpp"
#include "curves/chart_curve.hpp"
#include "curves/platinum_curve.hpp"
#include "fit_fixture.hpp"

// Sensors to compare, and what is looked up in the findings.

namespace ohmwright::defrost_sensor::testing_support {

/// 10 kohm unless said otherwise, vouched for from -40 to 85 °C, ±5 %.
inline SensorRatings vouched_beta(double beta_kelvin, double ohms_at_25 = 10000) {
  BetaCurve::Figures figures = beta_3977();
  figures.reference_resistance = ohm(ohms_at_25);
  figures.beta_kelvin = beta_kelvin;
  figures.stated_span = TemperatureSpan{celsius(-40), celsius(85)};
  return ratings_with(std::make_shared<BetaCurve>(figures));
}

/// A B25/85 of which nothing else is said, ±5 %.
inline SensorRatings two_point_beta_of(double beta_kelvin, double ohms_at_25 = 10000) {
  BetaCurve::Figures figures = beta_3977();
  figures.reference_resistance = ohm(ohms_at_25);
  figures.beta_kelvin = beta_kelvin;
  return ratings_with(std::make_shared<BetaCurve>(figures));
}

inline SensorRatings full_curve_3977() {
  return ratings_with(std::make_shared<FourCoefficientCurve>(
      FourCoefficientCurve::Coefficients{ohm(10000), -14.6337, 4791.842, -115334, -3.730535e6},
      TemperatureSpan{celsius(-40), celsius(85)}));
}

inline SensorRatings platinum(double ohms_at_0, PlatinumClass platinum_class = PlatinumClass::b) {
  return {std::make_shared<PlatinumCurve>(ohm(ohms_at_0), platinum_class), Tolerance(OfClass{platinum_class}), {}, {}};
}

/// The same, read by a control that ends a defrost at that temperature.
inline SensorRatings in_a_control(SensorRatings ratings, double ends_at_celsius) {
  Control control;
  control.pull_up = ohm(10000);
  control.termination_temperature = celsius(ends_at_celsius);
  ratings.control = control;
  return ratings;
}

inline std::vector<EquivalenceFinding> compare(const SensorRatings& original, const SensorRatings& candidate,
                                               std::optional<double> from = {}, std::optional<double> to = {}) {
  ComparisonContext context;
  if (from) context.from = AnyQuantity(celsius(*from));
  if (to) context.to = AnyQuantity(celsius(*to));
  return compare_sensors(&original, &candidate, context);
}

/// "outcome id" of every finding.
inline std::vector<std::string> said_of(const std::vector<EquivalenceFinding>& findings) {
  std::vector<std::string> said;
  for (const EquivalenceFinding& finding : findings)
    said.push_back(std::string(name_of(finding.outcome)) + " " + std::string(finding.text.id));
  return said;
}

inline const EquivalenceFinding& finding_called(const std::vector<EquivalenceFinding>& findings, std::string_view id) {
  for (const EquivalenceFinding& finding : findings)
    if (finding.text.id == id) return finding;
  throw std::logic_error("no finding " + std::string(id));
}

}  // namespace ohmwright::defrost_sensor::testing_support
