#include "part/cold_fit.hpp"

#include <ohmwright/component/mean_fit.hpp>
#include <ohmwright/quantity/temperature.hpp>

#include "rules/names.hpp"

namespace ohmwright::heater {

namespace {

/// Where the ratings state it; a row that is cold but not at that temperature is off by a tenth of a percent in ten
/// kelvin.
constexpr double reference_celsius = 20.0;
/// Warmer rows are no cold resistance.
constexpr double warmest_celsius = 60.0;
/// How far good elements of one type lie about the one that was measured (common practice, no source): they may take 5
/// % more and 10 % less than their rated power (IEC 60335-1).
constexpr double between_elements = 0.1;

ValueNode ratings_of(const FittedMean& mean) {
  return {ValueNode::Members{{"resistance", sourced_figure(ratings_text({Dimension::resistance, mean.ohms}),
                                                           fitted_from(mean.rows) + " of one part, cold")},
                             {"resistance_tolerance",
                              sourced_figure(ratings_text({Dimension::ratio, between_elements}),
                                             "between good elements of one type: common practice, no source")}},
          "", 0};
}

}  // namespace

Fitting fit_cold_resistance(const FitRequest& request) {
  if (request.measurand != resistance || request.condition != part_temperature) return {};
  MeanFit fit{.form = "cold-resistance", .figure = "resistance", .between_parts = between_elements};
  fit.warmest_kelvin = Temperature::from_celsius(warmest_celsius).kelvin();
  fit.reference_kelvin = Temperature::from_celsius(reference_celsius).kelvin();
  return fit_mean(request, fit, ratings_of);
}

}  // namespace ohmwright::heater
