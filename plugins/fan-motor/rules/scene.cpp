#include "rules/scene.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <ohmwright/component/repeated_readings.hpp>

namespace ohmwright::fan_motor {

namespace {

/// A meter that is off by a quarter of what a good winding has at least still tells it from bare leads.
constexpr double told_apart_share = 0.25;

bool is_usable(const FanMotorRatings& ratings, const Evidence& evidence, const PreparedReading& reading) {
  return is_ohms(reading) && reading.shown == Shown::value && !is_live(reading) && !is_in_circuit(reading) &&
         !is_within_leads(&ratings, reading) && reading.condition(part_temperature) != nullptr &&
         !repeats_jump(evidence, reading);
}

/// Of any of its windings.
double widest_jump(const Evidence& evidence) {
  double widest = 0.0;
  for (const PreparedReading& reading : evidence.readings())
    if (reading.measurand <= start_run && !is_live(reading) && !is_in_circuit(reading) &&
        repeats_jump(evidence, reading))
      widest = std::max(widest, relative_scatter(evidence, reading));
  return widest;
}

/// R·(k + t_ref)/(k + t), with the errors of both (IEC 60034-1).
Estimate at_reference(const FanMotorRatings& ratings, const PreparedReading& reading) {
  const Estimate& temperature = *reading.condition(part_temperature);
  const Temperature t = Temperature::from_kelvin(temperature.value());
  const double factor = winding_factor(ratings.conductor_constant, t, ratings.reference_temperature);
  Estimate moved;
  moved.add_scaled(reading.value, factor);
  moved.add_uncertainty(temperature, -moved.value() / (ratings.conductor_constant + t.celsius()));
  return moved;
}

std::optional<WindingOhms> wound_ohms(const FanMotorRatings& ratings, const Evidence& evidence) {
  boost::container::static_vector<Estimate, most_fused> moved;
  WindingOhms wound;
  for (const PreparedReading& reading : evidence.readings()) {
    if (!is_usable(ratings, evidence, reading)) continue;
    const Estimate one = at_reference(ratings, reading);
    if (!can_be_fused({moved.data(), moved.size()}, one)) continue;
    moved.push_back(one);
    wound.read_ohms = reading.value.value();
    wound.read_kelvin = reading.condition(part_temperature)->value();
    wound.stated_off = wound.stated_off && is_lead_off(reading);
  }
  if (moved.empty()) return std::nullopt;
  const std::span<const Estimate> all(moved.data(), moved.size());
  wound.ohms = fuse(all);
  wound.count = all.size();
  wound.worst_apart = worst_disagreement(all);
  for (const PreparedReading& reading : evidence.readings())  // also those that no longer fitted in
    if (is_usable(ratings, evidence, reading))
      wound.worst_apart = std::max(wound.worst_apart, disagreement_of(wound.ohms, at_reference(ratings, reading)));
  return wound;
}

/// Slower than one a second a meter counts none (common practice, no source) [Hz].
constexpr double fewest_pulses = 1.0;
/// Two readings of one speed, taken one after the other, may differ by as much: its control moves it meanwhile (common
/// practice, no source). A pulse more or less in a turn differs by more.
constexpr double speed_agreement = 0.1;
constexpr double standard_uncertainties_apart = 3.0;

/// 2π·f/N; nothing where it was not read, or nobody knows how many pulses a turn has.
std::optional<Turning> turning_by_tach(const FanMotorRatings* ratings, const Evidence& evidence) {
  const PreparedReading* pulses = last_value(evidence, tach);
  if (pulses == nullptr || ratings == nullptr || !ratings->pulses_per_turn) return std::nullopt;
  Turning turning{pulses, {}};
  turning.speed.add_scaled(pulses->value, 2.0 * std::numbers::pi / *ratings->pulses_per_turn);
  return turning;
}

bool is_still(const Turning& turning) { return std::abs(turning.speed.value()) < still_below; }

bool gives_no_pulses(const PreparedReading& pulses, const std::optional<Turning>& by_tach) {
  return pulses.value.value() < fewest_pulses || (by_tach && is_still(*by_tach));
}

/// The last reading of its speed, else of its tachometer where that gives pulses.
std::optional<Turning> turning_of(const FanMotorRatings* ratings, const Evidence& evidence) {
  if (const PreparedReading* reading = last_value(evidence, speed)) return Turning{reading, reading->value};
  const std::optional<Turning> by_tach = turning_by_tach(ratings, evidence);
  return by_tach && !gives_no_pulses(*by_tach->reading, by_tach) ? by_tach : std::nullopt;
}

/// Nearer to its own than this, a frequency is its own (common practice, no source; public supplies differ less).
constexpr double same_frequency = 0.02;

/// Said with its speed, else with any reading, since all are of one supply.
std::optional<Frequency> frequency_of_another_supply(const FanMotorRatings* ratings, const Evidence& evidence,
                                                     const std::optional<Turning>& turning) {
  if (ratings == nullptr || !ratings->frequency || ratings->is_electronic()) return std::nullopt;
  const Estimate* stated = turning ? turning->reading->condition(frequency) : nullptr;
  for (const PreparedReading& reading : evidence.readings())
    if (stated == nullptr) stated = reading.condition(frequency);
  if (stated == nullptr || !(stated->value() > 0.0)) return std::nullopt;
  const double share = stated->value() / ratings->frequency->value();
  if (std::abs(share - 1.0) <= same_frequency) return std::nullopt;
  return Frequency::from_value(stated->value());
}

bool differ(const Estimate& seen, const Estimate& by_tach) {
  Estimate difference = seen;
  difference.add_scaled(by_tach, -1.0);
  return std::abs(difference.value()) >
         standard_uncertainties_apart * difference.standard_uncertainty() + speed_agreement * seen.value();
}

TachSays what_tach_says(const FanMotorRatings* ratings, const Evidence& evidence) {
  const PreparedReading* pulses = last_value(evidence, tach);
  if (pulses == nullptr) return TachSays::nothing_else;
  const PreparedReading* seen = last_value(evidence, speed);
  const std::optional<Turning> by_tach = turning_by_tach(ratings, evidence);
  const bool silent = gives_no_pulses(*pulses, by_tach);
  if (seen == nullptr) return silent ? TachSays::silent : TachSays::nothing_else;
  const bool still = is_still({seen, seen->value});
  if (silent) return still ? TachSays::nothing_else : TachSays::silent_while_turning;
  if (still) return TachSays::pulses_while_still;
  return by_tach && differ(seen->value, by_tach->speed) ? TachSays::another_speed : TachSays::nothing_else;
}

}  // namespace

bool is_within_leads(const FanMotorRatings* ratings, const PreparedReading& reading) {
  LeadReach reach;
  const std::optional<Span> limits = ratings == nullptr ? std::nullopt : ratings->winding_limits();
  if (limits) reach.coarsest_ohms = std::max(reach.coarsest_ohms, told_apart_share * limits->lower);
  return is_within_lead_resistance(reading, reach);
}

Scene::Scene(const FanMotorRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out)
    : ratings(known),
      evidence(given),
      settings(how),
      findings(out),
      turning(turning_of(known, given)),
      tach_says(what_tach_says(known, given)),
      jumping(widest_jump(given)),
      plug(plug_volts(known, given)),
      other_frequency(frequency_of_another_supply(known, given, turning)) {
  if (ratings != nullptr && ratings->winding) wound = wound_ohms(*ratings, evidence);
}

bool is_said_clear(const Scene& scene) {
  return any_of(scene.evidence, [](const PreparedReading& r) { return r.state(air) == air_clear; });
}

double Scene::share_of_rated_frequency() const {
  return other_frequency ? other_frequency->value() / ratings->frequency->value() : 1.0;
}

std::optional<Span> Scene::speed_limits() const {
  const std::optional<Span> rated = ratings != nullptr ? ratings->speed_limits() : std::nullopt;
  if (!rated) return std::nullopt;
  const double share = share_of_rated_frequency();
  return Span{rated->lower * share, rated->upper * share};
}

std::optional<RotationalSpeed> Scene::synchronous() const {
  const auto rated = ratings != nullptr ? ratings->synchronous() : std::nullopt;
  if (!rated) return std::nullopt;
  return RotationalSpeed::from_value(rated->value() * share_of_rated_frequency());
}

void tell_frequencies(const Scene& scene, Finding& finding) {
  if (!scene.other_frequency) return;
  tell(finding, "frequency", AnyQuantity(*scene.other_frequency));
  tell(finding, "made_for", AnyQuantity(*scene.ratings->frequency));
}

bool is_said_turning(const Scene& scene) {
  return !scene.stands_still() &&
         any_of(scene.evidence, [](const PreparedReading& r) { return r.state(wheel) == wheel_turns; });
}

bool is_seen_turning(const Scene& scene) {
  if (scene.turning) return !scene.stands_still();
  const bool gives_pulses = scene.tach_says == TachSays::nothing_else && last_value(scene.evidence, tach) != nullptr;
  return gives_pulses || is_said_turning(scene);
}

void tell_volts(const Scene& scene, Finding& finding) {
  if (scene.plug.reading != nullptr) tell(finding, "volts", volts(scene.plug.volt));
  if (scene.ratings != nullptr && scene.ratings->voltage) tell(finding, "rated", AnyQuantity(*scene.ratings->voltage));
}

bool Scene::turns_by_a_minus() const { return turning && !is_still(*turning) && turning->speed.value() < 0.0; }

bool Scene::stands_still() const { return turning && is_still(*turning); }

}  // namespace ohmwright::fan_motor
