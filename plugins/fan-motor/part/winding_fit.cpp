#include "part/winding_fit.hpp"

#include <ohmwright/component/mean_fit.hpp>

#include "part/fan_motor_ratings.hpp"
#include "rules/names.hpp"

namespace ohmwright::fan_motor {

namespace {

/// Where the ratings state it.
constexpr double reference_celsius = 25.0;
/// How far good windings of one type lie about the one that was measured (common practice, no source).
constexpr double between_windings = 0.07;

double to_reference(double kelvin) {
  return winding_factor(constant_of_copper, Temperature::from_kelvin(kelvin),
                        Temperature::from_celsius(reference_celsius));
}

/// How the motor is built no ohms tell: the ratings are without it, and whoever keeps them says it.
ValueNode ratings_of(const FittedMean& mean) {
  return {ValueNode::Members{
              {"winding", sourced_figure(ratings_text({Dimension::resistance, mean.ohms}),
                                         fitted_from(mean.rows) + " of one part")},
              {"reference_temperature",
               ValueNode(ratings_text({Dimension::temperature, Temperature::from_celsius(reference_celsius).kelvin()}),
                         "", 0)},
              {"winding_tolerance", sourced_figure(ratings_text({Dimension::ratio, between_windings}),
                                                   "between good windings of one type: common practice, no source")}},
          "", 0};
}

}  // namespace

Fitting fit_winding(const FitRequest& request) {
  if (request.measurand != winding || request.condition != part_temperature) return {};
  MeanFit fit{.form = "winding", .figure = "winding", .factor = to_reference, .between_parts = between_windings};
  fit.reference_kelvin = Temperature::from_celsius(reference_celsius).kelvin();
  return fit_mean(request, fit, ratings_of);
}

}  // namespace ohmwright::fan_motor
