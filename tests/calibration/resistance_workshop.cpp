#include "resistance_workshop.hpp"

#include <cmath>
#include <stdexcept>
#include <utility>

namespace ohmwright::calibration {

namespace {

constexpr double kelvin_of_25 = 298.15;

/// The trade's rule: 10 % either way (common practice, no source).
Outcome by_ten_percent(double shown, double expected) {
  constexpr double trade_tolerance = 0.10;
  return std::abs(shown / expected - 1.0) <= trade_tolerance ? Outcome::within_limits : Outcome::out_of_limits;
}

/// What the meter shows of a value: leads and meter off by anything that their ± allows.
double shown_by(const Meter& meter, Dimension dimension, double value, ReproducibleStream& stream) {
  const double leads =
      meter.lead_resistance.value.value_in_si() + evenly_within(stream, meter.lead_resistance.half_width.value_or(0.0));
  const MeterRange* range = range_for(*function_for(meter, dimension), std::nullopt, {dimension, value + leads});
  return value + leads + evenly_within(stream, accuracy_half_width(*range, value + leads));
}

}  // namespace

ResistanceWorkshop::ResistanceWorkshop(std::shared_ptr<const Part> part, const Descriptor& descriptor, Meter meter,
                                       ResistanceReading reading, std::unique_ptr<const Population> population)
    : part_(std::move(part)),
      meter_(std::move(meter)),
      reading_(std::move(reading)),
      population_(std::move(population)),
      measurand_(index_of(descriptor.measurands, reading_.measurand)),
      condition_(index_of(descriptor.conditions, reading_.condition)),
      dimension_(descriptor.measurands[measurand_].dimension),
      nominal_at_25_(expected_at(kelvin_of_25).nominal.value_in_si()),
      nominal_as_noted_(expected_at(reading_.noted_kelvin).nominal.value_in_si()) {}

Expectation ResistanceWorkshop::expected_at(double kelvin) const {
  const ConditionValue value{condition_, kelvin};
  const std::optional<Expectation> expected = part_->expect(measurand_, Situation({&value, 1}));
  if (!expected) throw std::logic_error("the part says nothing at this temperature");
  return *expected;
}

Reading ResistanceWorkshop::reading_of(double shown) const {
  Reading reading{.measurand = reading_.measurand,
                  .observed = StatedValue{AnyQuantity(dimension_, shown), std::nullopt, Unit::si(dimension_)}};
  reading.conditions = {{reading_.condition,
                         {AnyQuantity(Dimension::temperature, reading_.noted_kelvin), reading_.thermometer_half_width,
                          Unit::si(Dimension::temperature)}}};
  reading.connection = Connection::lead_off;
  reading.moisture = Moisture::dry;
  reading.supply = Supply::proved_dead;
  return reading;
}

/// The same display again, its last digit one up or down as digits do.
double ResistanceWorkshop::jitter_around(double shown, ReproducibleStream& stream) const {
  const MeterRange* range = range_for(*function_for(meter_, dimension_), std::nullopt, {dimension_, shown});
  return shown + evenly_within(stream, range->resolution.value_in_si());
}

SimulatedPart ResistanceWorkshop::draw(ReproducibleStream& stream) const {
  const double true_kelvin = reading_.noted_kelvin + evenly_within(stream, reading_.thermometer_half_width);
  const Expectation truth = expected_at(true_kelvin);
  const double value = truth.nominal.value_in_si() * std::exp(population_->draw_deviation(stream));
  const double shown = shown_by(meter_, dimension_, value, stream);
  const bool truly_within = (!truth.limits.lower || value >= truth.limits.lower->value_in_si()) &&
                            (!truth.limits.upper || value <= truth.limits.upper->value_in_si());
  std::vector<Reading> readings{reading_of(shown)};
  while (readings.size() < static_cast<std::size_t>(reading_.times))
    readings.push_back(reading_of(jitter_around(shown, stream)));
  return {truly_within,
          std::move(readings),
          {by_ten_percent(shown, nominal_at_25_), by_ten_percent(shown, nominal_as_noted_)}};
}

}  // namespace ohmwright::calibration
