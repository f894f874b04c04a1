#include "part/expectation.hpp"

#include "rules/names.hpp"

namespace ohmwright::wiring {

std::optional<Expectation> expected_reading(const WiringRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation) {
  const std::optional<double> stated_length = situation.condition(lead_length);
  if (!ratings.knows_limit(stated_length.has_value())) return std::nullopt;
  const std::optional<double> kelvin = situation.condition(part_temperature);
  const Temperature t = kelvin ? Temperature::from_kelvin(*kelvin) : Temperature::from_celsius(20.0);
  const double metres = stated_length.value_or(ratings.length ? ratings.length->value() : 0.0);
  const double usual = ratings.least(metres, t);
  const double most = ratings.most(metres, t);
  Expectation expected{AnyQuantity(Dimension::resistance, usual), {}, 0.0};
  if (measurand == resistance) {
    expected.limits = {AnyQuantity(Dimension::resistance, 0.0), AnyQuantity(Dimension::resistance, most)};
    return expected;
  }
  const std::optional<double> ampere = situation.condition(load_current);
  if (measurand != drop || !ampere) return std::nullopt;
  expected.nominal = AnyQuantity(Dimension::voltage, usual * *ampere);
  expected.limits = {AnyQuantity(Dimension::voltage, 0.0), AnyQuantity(Dimension::voltage, most * *ampere)};
  return expected;
}

}  // namespace ohmwright::wiring
