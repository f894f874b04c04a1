#include "part/expectation.hpp"

#include "rules/names.hpp"

namespace ohmwright::fan_motor {

std::optional<Expectation> expected_reading(const FanMotorRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation) {
  const std::optional<double> kelvin = situation.condition(part_temperature);
  const std::optional<Span> limits = ratings.winding_limits();
  if (measurand != winding || !kelvin || !limits) return std::nullopt;
  const double factor =
      winding_factor(ratings.conductor_constant, ratings.reference_temperature, Temperature::from_kelvin(*kelvin));
  Expectation expected{AnyQuantity(Dimension::resistance, factor * ratings.winding->value()), {}, 0.0};
  expected.limits.lower = AnyQuantity(Dimension::resistance, factor * limits->lower);
  expected.limits.upper = AnyQuantity(Dimension::resistance, factor * limits->upper);
  return expected;
}

}  // namespace ohmwright::fan_motor
