#include "simulated_part.hpp"

#include <cmath>
#include <stdexcept>

namespace ohmwright::calibration {

namespace {

double flat(ReproducibleStream& stream, double half_width) { return half_width * (2.0 * stream.uniform() - 1.0); }

Expectation expected_at(const Part& part, std::uint16_t measurand, std::uint16_t condition, double kelvin) {
  const ConditionValue value{condition, kelvin};
  const std::optional<Expectation> expected = part.expect(measurand, Situation({&value, 1}));
  if (!expected) throw std::logic_error("the part says nothing at this temperature");
  return *expected;
}

}  // namespace

SimulatedPart draw_part(const Part& part, const Descriptor& descriptor, const Meter& meter, const Workplace& workplace,
                        const Population& population, ReproducibleStream& stream) {
  const std::uint16_t measurand = index_of(descriptor.measurands, workplace.measurand);
  const std::uint16_t condition = index_of(descriptor.conditions, workplace.condition);
  const Dimension dimension = descriptor.measurands[measurand].dimension;
  const double true_kelvin = workplace.noted_kelvin + flat(stream, workplace.thermometer_half_width);
  const Expectation truth = expected_at(part, measurand, condition, true_kelvin);
  const double deviation = population.draw_deviation(stream);
  const double value = truth.nominal.value_in_si() * std::exp(deviation);
  const double leads =
      meter.lead_resistance.value.value_in_si() + flat(stream, meter.lead_resistance.half_width.value_or(0.0));
  const MeterRange* range = range_for(*function_for(meter, dimension), std::nullopt, {dimension, value + leads});
  const double meter_error = flat(stream, accuracy_half_width(*range, value + leads));

  const double shown = value + leads + meter_error;
  const bool truly_within = (!truth.limits.lower || value >= truth.limits.lower->value_in_si()) &&
                            (!truth.limits.upper || value <= truth.limits.upper->value_in_si());
  SimulatedPart simulated{truly_within,
                          {.measurand = workplace.measurand,
                           .observed = StatedValue{AnyQuantity(dimension, shown), std::nullopt, Unit::si(dimension)}},
                          shown,
                          expected_at(part, measurand, condition, workplace.noted_kelvin).nominal.value_in_si()};
  simulated.reading.conditions = {{workplace.condition,
                                   {AnyQuantity(Dimension::temperature, workplace.noted_kelvin),
                                    workplace.thermometer_half_width, Unit::si(Dimension::temperature)}}};
  simulated.reading.connection = Connection::lead_off;
  simulated.reading.moisture = Moisture::dry;
  simulated.reading.supply = Supply::proved_dead;
  return simulated;
}

}  // namespace ohmwright::calibration
