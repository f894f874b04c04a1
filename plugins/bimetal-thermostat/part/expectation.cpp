#include "part/expectation.hpp"

#include <algorithm>

#include "part/electrical_model.hpp"
#include "rules/names.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

/// A good contact has about a quarter of the most that it may have (assumed).
constexpr double usual_share_of_limit = 0.25;

Expectation between_nothing_and(AnyQuantity upper) {
  Expectation expected{AnyQuantity(upper.dimension(), usual_share_of_limit * upper.value_in_si()), {}, 0.0, {}};
  expected.limits.lower = AnyQuantity(upper.dimension(), 0.0);
  expected.limits.upper = upper;
  return expected;
}

double limit_of(const ThermostatRatings& ratings) {
  return ratings.contact_resistance ? ratings.contact_resistance->value() : usual_contact_limit_ohms;
}

}  // namespace

std::optional<Expectation> expected_reading(const ThermostatRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation) {
  if (measurand == voltage_drop) {
    const std::optional<double> ampere = situation.condition(load_current);
    if (!ampere) return std::nullopt;
    return between_nothing_and({Dimension::voltage, limit_of(ratings) * *ampere});
  }
  const std::optional<double> kelvin = situation.condition(part_temperature);
  if (!kelvin || (measurand == link_state && !ratings.link_has_own_leads())) return std::nullopt;
  Expectation expected = between_nothing_and({Dimension::resistance, limit_of(ratings)});
  if (measurand == link_state)
    expected.share_closed = std::clamp((ratings.link->functioning.kelvin() - *kelvin) / link_band_kelvin, 0.0, 1.0);
  else
    expected.share_closed = share_closed_at(ratings, Temperature::from_kelvin(*kelvin), situation);
  return expected;
}

}  // namespace ohmwright::bimetal_thermostat
