#include "part/expectation.hpp"

#include <cmath>

#include "part/cam_time.hpp"
#include "part/electrical_model.hpp"
#include "part/motor.hpp"
#include "part/sensor_divider.hpp"
#include "rules/load.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_control {

namespace {

/// A good contact has about a quarter of the most that it may have (assumed).
constexpr double usual_share_of_limit = 0.25;

Expectation between(Dimension dimension, double nominal, double lower, double upper) {
  Expectation expected{AnyQuantity(dimension, nominal), {}, 0.0, {}};
  expected.limits.lower = AnyQuantity(dimension, lower);
  expected.limits.upper = AnyQuantity(dimension, upper);
  return expected;
}

std::optional<Expectation> of_motor(const ControlRatings& ratings, const Situation& situation) {
  if (!ratings.motor.is_stated()) return std::nullopt;
  const std::optional<double> kelvin = situation.condition(part_temperature);
  const double factor = kelvin ? copper_factor(ratings.motor_temperature, Temperature::from_kelvin(*kelvin)) : 1.0;
  const double least = factor * ratings.motor.least->value();
  const double most = factor * ratings.motor.most->value();
  return between(Dimension::resistance, std::sqrt(least * most), least, most);
}

std::optional<Expectation> of_contact(const ControlRatings& ratings, bool heater, const Situation& situation) {
  if (!ratings.is_timer() && !ratings.run_closed_at_rest && !heater) return std::nullopt;
  const double most = ratings.contact_resistance.value();
  Expectation expected = between(Dimension::resistance, usual_share_of_limit * most, 0.0, most);
  if (ratings.is_timer())
    expected.share_closed = heater ? share_in_defrost(situation) : 1.0 - share_in_defrost(situation);
  else
    expected.share_closed = !heater && *ratings.run_closed_at_rest ? 1.0 : 0.0;
  return expected;
}

/// In a defrost; in run the output is off.
std::optional<Expectation> of_output(const Situation& situation) {
  const std::optional<double> line = situation.condition(line_voltage);
  if (!line) return std::nullopt;
  if (situation.state(position) == std::optional<std::uint16_t>(position_run))
    return between(Dimension::voltage, 0.0, 0.0, most_share_off * *line);
  return between(Dimension::voltage, *line, least_share_on * *line, *line);
}

std::optional<Expectation> of_drop(const ControlRatings& ratings, const Situation& situation) {
  const std::optional<double> ampere = situation.condition(load_current);
  if (!ampere) return std::nullopt;
  const double most = ratings.switching == Switching::contact ? ratings.contact_resistance.value() * *ampere
                                                              : ratings.solid_state_drop.value();
  return between(Dimension::voltage, usual_share_of_limit * most, 0.0, most);
}

std::optional<Expectation> of_sensor(const ControlRatings& ratings, const Situation& situation) {
  const std::optional<double> resistor = situation.condition(stand_in);
  if (!ratings.sensor || (resistor && (!ratings.sensor->knows_pull_up() || !(*resistor > 0.0)))) return std::nullopt;
  const double nominal = volts_at_connector(*ratings.sensor, resistor);
  const double tolerance = ratings.sensor->tolerance;
  return between(Dimension::voltage, nominal, nominal * (1.0 - tolerance), nominal * (1.0 + tolerance));
}

std::optional<Expectation> of_time(const Between<Duration>& rated, double factor) {
  if (!rated.most) return std::nullopt;
  const double least = factor * (rated.least ? rated.least->value() : 0.0);
  const double most = factor * rated.most->value();
  return between(Dimension::duration, 0.5 * (least + most), least, most);
}

/// Of the one count that it keeps; hours of the other say nothing without the share that the compressor ran.
std::optional<Expectation> of_interval(const ControlRatings& ratings, bool by_clock, const Situation& situation,
                                       double factor = 1.0) {
  const bool counts_clock = ratings.interval_counts == Counts::clock;
  if (counts_clock == by_clock) return of_time(ratings.interval, factor);
  const std::optional<double> share = situation.condition(run_share);
  if (!share || !(*share > 0.0)) return std::nullopt;
  return of_time(ratings.interval, factor * (by_clock ? 1.0 / *share : *share));
}

std::optional<Expectation> of_advance(const ControlRatings& ratings, const Situation& situation) {
  const std::optional<double> hertz = situation.condition(frequency);
  const double factor = hertz && *hertz > 0.0 ? time_factor(ratings, *hertz) : 1.0;
  const bool run = situation.state(position) == std::optional<std::uint16_t>(position_run);
  return run ? of_interval(ratings, true, situation, factor) : of_time(ratings.defrost_time, factor);
}

}  // namespace

std::optional<Expectation> expected_reading(const ControlRatings& ratings, std::uint16_t measurand,
                                            const Situation& situation) {
  switch (measurand) {
    case motor:
      return of_motor(ratings, situation);
    case defrost_contact:
    case run_contact:
      return of_contact(ratings, measurand == defrost_contact, situation);
    case output_voltage:
      return of_output(situation);
    case voltage_drop:
      return of_drop(ratings, situation);
    case sensor_voltage:
      return of_sensor(ratings, situation);
    case advance_time:
      return of_advance(ratings, situation);
    case interval_time:
    case interval_by_clock:
      return of_interval(ratings, measurand == interval_by_clock, situation);
    default:
      return std::nullopt;
  }
}

}  // namespace ohmwright::defrost_control
