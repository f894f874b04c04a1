#include "rules/scene.hpp"

#include <algorithm>

namespace ohmwright::heater {

namespace {

bool is_usable(const PreparedReading& reading) {
  return is_ohms(reading) && reading.shown == Shown::value && !is_live(reading) && !is_in_circuit(reading) &&
         !is_within_leads(reading);
}

/// A reading moved to 20 °C. Without a temperature it counts as being there.
Factor factor_of(const HeaterRatings& ratings, const PreparedReading& reading) {
  const Estimate* temperature = reading.condition(part_temperature);
  const Temperature t =
      temperature != nullptr ? Temperature::from_kelvin(temperature->value()) : Temperature::from_celsius(20.0);
  return resistance_factor(ratings.alloy, t);
}

Estimate at_20(const PreparedReading& reading, const Factor& factor) {
  Estimate moved;
  moved.add_scaled(reading.value, 2.0 / (factor.low + factor.high));
  return moved;
}

/// What the readings say of the element at 20 °C. Without a temperature it counts as being at 20 °C: ten kelvin are
/// 0.1 % of the ohms.
std::optional<ColdOhms> cold_ohms(const HeaterRatings& ratings, const Evidence& evidence) {
  boost::container::static_vector<Estimate, most_fused> fused;
  ColdOhms cold;
  Factor widest;
  for (const PreparedReading& reading : evidence.readings()) {
    if (!is_usable(reading)) continue;
    const Factor factor = factor_of(ratings, reading);
    const Estimate moved = at_20(reading, factor);
    if (!can_be_fused({fused.data(), fused.size()}, moved)) continue;
    fused.push_back(moved);
    const double middle = 0.5 * (factor.low + factor.high);
    widest.low = std::min(widest.low, factor.low / middle);
    widest.high = std::max(widest.high, factor.high / middle);
    cold.stated_off = cold.stated_off && is_lead_off(reading);
  }
  if (fused.empty()) return std::nullopt;
  const std::span<const Estimate> all(fused.data(), fused.size());
  cold.ohms = fuse(all);
  cold.worst_apart = worst_disagreement(all);
  for (const PreparedReading& reading : evidence.readings())  // also those that no longer fitted in
    if (is_usable(reading))
      cold.worst_apart =
          std::max(cold.worst_apart, disagreement_of(cold.ohms, at_20(reading, factor_of(ratings, reading))));
  cold.limits = ratings.cold();
  cold.limits.lower *= widest.low;
  cold.limits.upper *= widest.high;
  return cold;
}

/// The last reading of amperes or watts under load whose line voltage is known. P at rated volts grows with the square
/// of the volts, I·Vr²/V with their inverse: the terms follow.
std::optional<Load> load_of(const HeaterRatings& ratings, const Evidence& evidence) {
  if (!ratings.knows_power()) return std::nullopt;
  std::optional<Load> load;
  const double rated = ratings.voltage->value();
  for (const PreparedReading& reading : evidence.readings()) {
    const bool in_amperes = reading.measurand == current;
    if ((!in_amperes && reading.measurand != power) || reading.shown != Shown::value || !is_live(reading)) continue;
    const Estimate* line = reading.condition(line_voltage);
    if (line == nullptr || !(line->value() > 0.0) || !(reading.value.value() > 0.0)) continue;
    const double volt = line->value();
    const double per_unit = in_amperes ? rated * rated / volt : rated * rated / (volt * volt);
    load.emplace();
    load->reading = &reading;
    load->line_volt = volt;
    load->rated_power.add_scaled(reading.value, per_unit);
    const double value = load->rated_power.value();
    load->rated_power.add_uncertainty(*line, (in_amperes ? -1.0 : -2.0) * value / volt);
  }
  return load;
}

}  // namespace

bool is_within_leads(const PreparedReading& reading) {
  if (reading.shown == Shown::contact_closed) return true;
  if (reading.shown != Shown::value) return false;
  const double reach = reading.lead_resistance + reading.lead_half_width + reading.meter_half_width;
  return reading.displayed <= reach;
}

double no_current_below(const HeaterRatings* ratings) {
  if (ratings == nullptr || !ratings->knows_power()) return least_heater_ampere;
  return no_current_share * ratings->power->value() / ratings->voltage->value();
}

const PreparedReading* last_value(const Evidence& evidence, MeasurandIndex measurand) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : evidence.readings())
    if (reading.measurand == measurand && reading.shown == Shown::value) last = &reading;
  return last;
}

Scene::Scene(const HeaterRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out)
    : ratings(known), evidence(given), settings(how), findings(out) {
  if (ratings == nullptr) return;
  cold = cold_ohms(*ratings, evidence);
  load = load_of(*ratings, evidence);
}

}  // namespace ohmwright::heater
