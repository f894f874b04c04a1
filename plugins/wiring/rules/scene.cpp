#include "rules/scene.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <ohmwright/component/repeated_readings.hpp>

namespace ohmwright::wiring {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// How far from 20 °C the copper may have been where nobody said: a cold compartment, a warm machine space (common
/// practice, no source) [K].
constexpr double unstated_kelvin = 20.0;

/// A thicker conductor than its mark says, at -40 degC: 0.76 of the copper's ohms at 20 degC are left (IEC 60028), and
/// some room (common practice, no source).
constexpr double least_share_of_copper = 0.7;

bool shows_ohms(const PreparedReading& reading) { return is_of_the_wire(reading) && reading.shown == Shown::value; }

bool shows_a_path(const PreparedReading& reading) {
  return is_of_the_wire(reading) && (reading.shown == Shown::value || reading.shown == Shown::contact_closed);
}

bool shows_no_path(const PreparedReading& reading) {
  return is_of_the_wire(reading) &&
         (reading.shown == Shown::contact_open ||
          (reading.shown == Shown::over_range && reading.range_full_scale > most_of_any_wiring));
}

std::optional<Estimate> measured_length(const Evidence& evidence) {
  for (const PreparedReading& reading : evidence.readings())
    if (const Estimate* stated = reading.condition(lead_length)) return *stated;
  return std::nullopt;
}

std::optional<Estimate> length_of(const WiringRatings* ratings, const Evidence& evidence) {
  if (std::optional<Estimate> measured = measured_length(evidence)) return measured;
  if (ratings != nullptr && ratings->length) return Estimate(ratings->length->value());
  return std::nullopt;
}

Estimate excess_of(const Scene& scene, const PreparedReading& reading) {
  Estimate excess = reading.value;
  if (scene.knows_limit()) excess.add_scaled(scene.limit_at(reading), -1.0);
  return excess;
}

/// What copper of its measured length has by itself [ohm]; 0 where nobody measured it.
double copper_of(const Scene& scene) {
  if (scene.ratings == nullptr || !scene.ratings->conductor || !scene.length_measured) return 0.0;
  return copper_ohms_per_metre(*scene.ratings->conductor) * scene.length->value();
}

bool is_surely_negative(const Scene& scene, const Estimate& above) {
  return probability_between(above, scene.evidence.sources(), 0.0, infinity) <= 1.0 - scene.settings.confidence;
}

/// Ohms that are too few for so much copper are not those of this lead.
void compare_with_copper(const Scene& scene, OhmsSeen& seen) {
  seen.copper = copper_of(scene);
  if (seen.copper <= 0.0) return;
  Estimate above = seen.excess;  // its doubt of length is that of the limit, a little more than here: less is refused
  above.shift(seen.limit - least_share_of_copper * seen.copper);
  seen.less_than_copper = is_surely_negative(scene, above);
}

/// The same of a drop.
void compare_with_copper(const Scene& scene, DropSeen& seen) {
  seen.copper = copper_of(scene);
  if (seen.copper <= 0.0) return;
  const PreparedReading& reading = *seen.reading;
  const double least = least_share_of_copper * seen.copper;
  Estimate above;  // volts over what the least of so much copper would drop
  above.add_scaled(reading.value, reading.value.value() < 0.0 ? -1.0 : 1.0);
  above.add_scaled(*reading.condition(load_current), -least);
  above.add_uncertainty(*scene.length, -least / scene.length->value() * seen.ampere);
  seen.less_than_copper = is_surely_negative(scene, above);
}

std::optional<OhmsSeen> ohms_of(const Scene& scene) {
  boost::container::static_vector<Estimate, most_fused> fused;
  OhmsSeen seen;
  seen.doubt = infinity;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!shows_ohms(reading)) continue;
    const Estimate excess = excess_of(scene, reading);
    if (!can_be_fused({fused.data(), fused.size()}, excess)) continue;
    fused.push_back(excess);
    seen.limit = scene.knows_limit() ? scene.limit_at(reading).value() : 0.0;
    seen.doubt = std::min(seen.doubt, reading.meter_half_width + reading.lead_half_width);
    seen.stated_off = seen.stated_off && is_lead_off(reading);
    seen.below_zero = seen.below_zero || reading.value.value() < -(reading.meter_half_width + reading.lead_half_width);
  }
  if (fused.empty()) return std::nullopt;
  const std::span<const Estimate> all(fused.data(), fused.size());
  seen.excess = fuse(all);
  seen.worst_apart = worst_disagreement(all);
  for (const PreparedReading& reading : scene.evidence.readings())  // also those that no longer fitted in
    if (shows_ohms(reading))
      seen.worst_apart = std::max(seen.worst_apart, disagreement_of(seen.excess, excess_of(scene, reading)));
  compare_with_copper(scene, seen);
  seen.p = conformance_of(seen.excess, scene.evidence.sources(), -infinity, 0.0);
  seen.outcome = decide(seen.p, scene.settings.confidence);
  return seen;
}

std::optional<DropSeen> drop_of(const Scene& scene) {
  std::optional<DropSeen> seen;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != drop || !is_drop_under_load(reading) || !has_current(reading)) continue;
    const Estimate& current = *reading.condition(load_current);
    const Estimate limit = scene.limit_at(reading);
    seen.emplace();
    seen->reading = &reading;
    seen->volt = std::abs(reading.value.value());
    seen->ampere = current.value();
    seen->limit = limit.value();
    // The probes may lie the other way about: a drop has no sign.
    seen->excess.add_scaled(reading.value, reading.value.value() < 0.0 ? -1.0 : 1.0);
    seen->excess.add_scaled(current, -limit.value());
    seen->excess.add_uncertainty(limit, -current.value());
  }
  if (!seen) return seen;
  compare_with_copper(scene, *seen);
  seen->p = conformance_of(seen->excess, scene.evidence.sources(), -infinity, 0.0);
  seen->outcome = decide(seen->p, scene.settings.confidence);
  return seen;
}

}  // namespace

double least_to_frame(const WiringRatings* ratings) {
  return ratings == nullptr ? least_insulation(EarthClass::unstated).value() : ratings->insulation.value();
}

bool has_current(const PreparedReading& reading) {
  const Estimate* current = reading.condition(load_current);
  return current != nullptr && current->value() > std::max(least_load_ampere, 2.0 * current->standard_uncertainty());
}

bool is_drop_under_load(const PreparedReading& reading) {
  return reading.measurand == drop && reading.shown == Shown::value && (is_live(reading) || is_lead_off(reading));
}

Estimate Scene::limit_at(const PreparedReading& reading) const {
  const double per_metre = ratings->most_per_metre();
  const double metres = length ? length->value() : 0.0;
  const double gain = per_metre * metres * copper_gain_per_kelvin;  // [ohm/K]
  const Estimate* warmth = reading.condition(part_temperature);
  const Temperature t = warmth != nullptr ? Temperature::from_kelvin(warmth->value()) : Temperature::from_celsius(20.0);
  Estimate limit(ratings->most(metres, t));
  if (length) limit.add_uncertainty(*length, per_metre * copper_factor(t));
  if (warmth != nullptr)
    limit.add_uncertainty(*warmth, gain);
  else if (gain > 0.0)
    limit.add_term(Evidence::own_source(unstated_temperature), gain * unstated_kelvin / std::numbers::sqrt3);
  return limit;
}

Scene::Scene(const WiringRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out)
    : ratings(known),
      evidence(given),
      settings(how),
      findings(out),
      length(length_of(known, given)),
      length_measured(measured_length(given).has_value()) {
  ohms = ohms_of(*this);
  opened_and_closed = any_of(evidence, shows_a_path) && any_of(evidence, shows_no_path);
  const auto jumps = [this](const PreparedReading& reading) { return repeats_jump_past_digits(evidence, reading); };
  ohms_jump = any_of(evidence, [&](const PreparedReading& r) { return shows_ohms(r) && jumps(r); });
  drop_jumps = any_of(evidence, [&](const PreparedReading& r) { return is_drop_under_load(r) && jumps(r); });
  if (knows_limit()) drop = drop_of(*this);
}

}  // namespace ohmwright::wiring
