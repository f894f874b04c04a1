#include "trip_workshop.hpp"

#include <cmath>

namespace ohmwright::calibration {

namespace {

/// The trade's rule: closed out of the freezer, open in the kitchen (common practice, no source).
Outcome by_two_temperatures(double opens_kelvin) {
  constexpr double freezer = 255.15;
  constexpr double kitchen = 295.15;
  return opens_kelvin > freezer && opens_kelvin <= kitchen ? Outcome::within_limits : Outcome::out_of_limits;
}

}  // namespace

Reading TripWorkshop::reading_of(ContactState state, double noted_kelvin) const {
  Reading reading{.measurand = "state", .observed = state};
  reading.conditions = {{"part_temperature",
                         {AnyQuantity(Dimension::temperature, noted_kelvin), watch_.thermometer_half_width,
                          Unit::si(Dimension::temperature)},
                         "thermometer"}};
  reading.connection = Connection::lead_off;
  reading.moisture = Moisture::dry;
  reading.supply = Supply::proved_dead;
  return reading;
}

SimulatedPart TripWorkshop::draw(ReproducibleStream& stream) const {
  const double opens = watch_.rated_kelvin + population_->draw_deviation(stream);
  const double opens_as_noted = opens + evenly_within(stream, watch_.thermometer_half_width);
  const double last_closed = opens_as_noted - watch_.step_kelvin * stream.uniform();  // the steps begin anywhere
  return {
      std::abs(opens - watch_.rated_kelvin) <= watch_.tolerance_kelvin,
      {reading_of(ContactState::closed, last_closed), reading_of(ContactState::open, last_closed + watch_.step_kelvin)},
      {by_two_temperatures(opens)}};
}

}  // namespace ohmwright::calibration
