#include "part/motor_fit.hpp"

#include <ohmwright/component/mean_fit.hpp>

#include "part/motor.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_control {

namespace {

constexpr double reference_celsius = 25.0;
/// How far good timer motors of one type lie about the one that was measured (common practice, no source).
constexpr double between_motors = 0.1;

double to_reference(double kelvin) {
  return copper_factor(Temperature::from_kelvin(kelvin), Temperature::from_celsius(reference_celsius));
}

ValueNode ratings_of(const FittedMean& mean) {
  const std::string source = fitted_from(mean.rows) + " of one motor; between good ones: common practice, no source";
  const auto figure = [&](double ohms) { return sourced_figure(ratings_text({Dimension::resistance, ohms}), source); };
  return {ValueNode::Members{{"type", ValueNode(std::string("cam-timer"), "", 0)},
                             {"motor_least", figure(mean.ohms * (1.0 - between_motors))},
                             {"motor_most", figure(mean.ohms * (1.0 + between_motors))}},
          "", 0};
}

}  // namespace

Fitting fit_motor(const FitRequest& request) {
  if (request.measurand != motor || request.condition != part_temperature) return {};
  MeanFit fit{.form = "motor-winding", .figure = "motor", .factor = to_reference, .between_parts = between_motors};
  fit.reference_kelvin = Temperature::from_celsius(reference_celsius).kelvin();
  return fit_mean(request, fit, ratings_of);
}

}  // namespace ohmwright::defrost_control
