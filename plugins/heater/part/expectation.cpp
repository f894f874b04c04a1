#include "part/expectation.hpp"

#include <cmath>

#include "rules/names.hpp"

namespace ohmwright::heater {

namespace {

Expectation between(AnyQuantity nominal, double lower, double upper) {
  Expectation expected{nominal, {}, 0.0};
  expected.limits.lower = AnyQuantity(nominal.dimension(), lower);
  expected.limits.upper = AnyQuantity(nominal.dimension(), upper);
  return expected;
}

}  // namespace

std::optional<Expectation> expected_reading(const HeaterRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation) {
  if (measurand == resistance) {
    const std::optional<double> kelvin = situation.condition(part_temperature);
    if (!kelvin) return std::nullopt;
    const RatedResistance r = ratings.cold_at(Temperature::from_kelvin(*kelvin));
    return between({Dimension::resistance, r.nominal}, r.lower, r.upper);
  }
  const std::optional<double> line = situation.condition(line_voltage);
  if (!line || !ratings.knows_power() || (measurand != power && measurand != current)) return std::nullopt;
  const double share = *line / ratings.voltage->value();
  if (std::abs(share - 1.0) > widest_step_from_rated) return std::nullopt;
  const double watt = ratings.power->value() * share * share;
  const double low = 1.0 - ratings.tolerance.below;
  const double high = 1.0 + ratings.tolerance.above;
  if (measurand == power) return between({Dimension::power, watt}, low * watt, high * watt);
  const double ampere = watt / *line;
  return between({Dimension::current, ampere}, low * ampere, high * ampere);
}

}  // namespace ohmwright::heater
