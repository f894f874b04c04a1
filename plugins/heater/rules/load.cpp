#include "rules/load.hpp"

#include <cmath>

#include <ohmwright/component/repeated_readings.hpp>

#include "rules/scene.hpp"

namespace ohmwright::heater {

namespace {

/// The volts of a load reading: those across its own leads where they were read, else those of its condition.
const Estimate* volts_of(const Evidence& evidence, const PreparedReading& reading, bool& at_element) {
  const PreparedReading* own = volts_at_its_leads(evidence);
  at_element = own != nullptr && own->value.value() > 0.0;
  return at_element ? &own->value : reading.condition(line_voltage);
}

/// P at the rated volts grows with the square of the volts, I·Vr²/V with their inverse: the terms follow.
Estimate at_rated_volts(const PreparedReading& reading, const Estimate& line, double rated) {
  const bool in_amperes = reading.measurand == current;
  const double volt = line.value();
  Estimate power_then;
  power_then.add_scaled(reading.value, in_amperes ? rated * rated / volt : rated * rated / (volt * volt));
  power_then.add_uncertainty(line, (in_amperes ? -1.0 : -2.0) * power_then.value() / volt);
  return power_then;
}

void judge(Load& load, const HeaterRatings& ratings, const Evidence& evidence, const JudgeSettings& settings) {
  const double rated = ratings.voltage->value();
  load.far_from_rated = std::abs(load.line_volt / rated - 1.0) > widest_step_from_rated;
  load.lower = ratings.power->value() * (1.0 - ratings.tolerance.below);
  load.upper = ratings.power->value() * (1.0 + ratings.tolerance.above);
  load.p = conformance_of(load.rated_power, evidence.sources(), load.lower, load.upper);
  load.outcome = decide(load.p, settings.confidence);
  if (load.far_from_rated || (load.others_may_draw() && load.outcome == Outcome::out_of_limits))
    load.outcome = Outcome::undecided;
}

}  // namespace

bool is_under_load(const PreparedReading& reading) {
  if (reading.measurand == power) return is_live(reading) || reading.supply == Supply::unstated;
  return reading.measurand == current && is_live(reading);
}

std::optional<Load> load_of(const HeaterRatings& ratings, const Evidence& evidence, const JudgeSettings& settings) {
  if (!ratings.knows_power()) return std::nullopt;
  std::optional<Load> load;
  for (const PreparedReading& reading : evidence.readings()) {
    if (!is_under_load(reading) || reading.shown != Shown::value || !(reading.value.value() > 0.0)) continue;
    if (repeats_jump(evidence, reading)) continue;
    bool at_element = false;
    const Estimate* line = volts_of(evidence, reading, at_element);
    if (line == nullptr || !(line->value() > 0.0)) continue;
    load.emplace();
    load->reading = &reading;
    load->line_volt = line->value();
    load->at_element = at_element;
    load->whole_plug = reading.measurand == power;
    load->rated_power = at_rated_volts(reading, *line, ratings.voltage->value());
  }
  if (load) judge(*load, ratings, evidence, settings);
  return load;
}

}  // namespace ohmwright::heater
