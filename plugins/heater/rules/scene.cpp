#include "rules/scene.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/component/repeated_readings.hpp>

namespace ohmwright::heater {

namespace {

/// Farther than this from 20 °C it is told that a reading was brought there (common practice, no source) [K].
constexpr double widest_room = 25.0;

/// A meter that is off by a quarter of what a good element has at least still tells it from bare leads.
constexpr double told_apart_share = 0.25;

bool is_of_the_part_alone(const PreparedReading& reading) {
  return is_ohms(reading) && reading.shown == Shown::value && !is_live(reading) && !is_in_circuit(reading);
}

bool is_usable(const HeaterRatings& ratings, const Evidence& evidence, const PreparedReading& reading) {
  return is_of_the_part_alone(reading) && !is_within_leads(&ratings, reading) && !repeats_jump(evidence, reading);
}

double widest_jump(const Evidence& evidence) {
  double widest = 0.0;
  for (const PreparedReading& reading : evidence.readings())
    if (is_of_the_part_alone(reading) && repeats_jump(evidence, reading))
      widest = std::max(widest, relative_scatter(evidence, reading));
  return widest;
}

/// Without a stated temperature the element counts as being at 20 °C.
Temperature temperature_of(const PreparedReading& reading) {
  const Estimate* stated = reading.condition(part_temperature);
  return stated != nullptr ? Temperature::from_kelvin(stated->value()) : Temperature::from_celsius(20.0);
}

Factor factor_of(const HeaterRatings& ratings, const PreparedReading& reading) {
  return resistance_factor(ratings.alloy, temperature_of(reading));
}

/// A reading moved to 20 °C.
Estimate at_20(const PreparedReading& reading, const Factor& factor) {
  Estimate moved;
  moved.add_scaled(reading.value, 2.0 / (factor.low + factor.high));
  return moved;
}

/// Those across its own leads where they were read, else those of the outlet while it draws; 0 where they are not far
/// above the rated ones.
double far_too_many_volts(const HeaterRatings& ratings, const Evidence& evidence) {
  if (!ratings.voltage) return 0.0;
  double highest = 0.0;
  for (const PreparedReading& reading : evidence.readings())
    if (const Estimate* line = reading.condition(line_voltage); line != nullptr && is_under_load(reading))
      highest = std::max(highest, line->value());
  if (const PreparedReading* own = last_live_value(evidence, terminal_voltage)) {
    const std::optional<FarApart> apart = far_apart(evidence, *own);
    highest = std::abs(apart && apart->count == 2 ? apart->largest() : own->value.value());
  }
  return highest > (1.0 + widest_step_from_rated) * ratings.voltage->value() ? highest : 0.0;
}

/// What the readings say of the element at 20 °C. Without a temperature it counts as being at 20 °C: ten kelvin are
/// 0.1 % of the ohms.
std::optional<ColdOhms> cold_ohms(const HeaterRatings& ratings, const Evidence& evidence,
                                  const JudgeSettings& settings) {
  boost::container::static_vector<Estimate, most_fused> fused;
  ColdOhms cold;
  Factor widest;
  for (const PreparedReading& reading : evidence.readings()) {
    if (!is_usable(ratings, evidence, reading)) continue;
    const Factor factor = factor_of(ratings, reading);
    const Estimate moved = at_20(reading, factor);
    if (!can_be_fused({fused.data(), fused.size()}, moved)) continue;
    fused.push_back(moved);
    const double middle = 0.5 * (factor.low + factor.high);
    widest.low = std::min(widest.low, factor.low / middle);
    widest.high = std::max(widest.high, factor.high / middle);
    const Temperature t = temperature_of(reading);
    if (std::abs(t.celsius() - 20.0) > widest_room) cold.read_at = t.kelvin();
    cold.stated_off = cold.stated_off && is_lead_off(reading);
  }
  if (fused.empty()) return std::nullopt;
  const std::span<const Estimate> all(fused.data(), fused.size());
  cold.ohms = fuse(all);
  cold.worst_apart = worst_disagreement(all);
  for (const PreparedReading& reading : evidence.readings())  // also those that no longer fitted in
    if (is_usable(ratings, evidence, reading))
      cold.worst_apart =
          std::max(cold.worst_apart, disagreement_of(cold.ohms, at_20(reading, factor_of(ratings, reading))));
  cold.limits = ratings.cold();
  cold.limits.lower *= widest.low;
  cold.limits.upper *= widest.high;
  cold.p = conformance_of(cold.ohms, evidence.sources(), cold.limits.lower, cold.limits.upper);
  cold.outcome = decide(cold.p, settings.confidence);
  return cold;
}

}  // namespace

bool is_within_leads(const HeaterRatings* ratings, const PreparedReading& reading) {
  LeadReach reach;
  if (ratings != nullptr) reach.coarsest_ohms = std::max(reach.coarsest_ohms, told_apart_share * ratings->cold().lower);
  return is_within_lead_resistance(reading, reach);
}

double no_current_below(const HeaterRatings* ratings) {
  if (ratings == nullptr || !ratings->knows_power()) return least_heater_ampere;
  return no_current_share * ratings->power->value() / ratings->voltage->value();
}

double least_to_frame(const HeaterRatings* ratings) {
  return ratings == nullptr ? least_insulation(EarthClass::unstated).value() : ratings->insulation.value();
}

const PreparedReading* last_live_value(const Evidence& evidence, MeasurandIndex measurand) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : evidence.readings())
    if (reading.measurand == measurand && reading.shown == Shown::value && is_live(reading)) last = &reading;
  return last;
}

std::optional<FarApart> contradicting_volts(const Evidence& evidence) {
  const PreparedReading* own = last_live_value(evidence, terminal_voltage);
  return own == nullptr ? std::nullopt : far_apart(evidence, *own);
}

const PreparedReading* volts_at_its_leads(const Evidence& evidence) {
  return contradicting_volts(evidence) ? nullptr : last_live_value(evidence, terminal_voltage);
}

Scene::Scene(const HeaterRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out)
    : ratings(known), evidence(given), settings(how), findings(out), jumping(widest_jump(given)) {
  if (ratings == nullptr) return;
  far_too_many_volt = far_too_many_volts(*ratings, evidence);
  cold = cold_ohms(*ratings, evidence, settings);
  load = load_of(*ratings, evidence, settings);
  witness = witness_of(*this);
}

bool is_seen_drawing(const Scene& scene) {
  const PreparedReading* drawn = last_live_value(scene.evidence, current);
  return drawn != nullptr && drawn->value.value() >= no_current_below(scene.ratings);
}

}  // namespace ohmwright::heater
