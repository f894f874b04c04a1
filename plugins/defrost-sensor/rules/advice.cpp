#include "rules/advice.hpp"

#include <algorithm>
#include <cmath>

#include "rules/open_sensor.hpp"
#include "rules/what_decides.hpp"

namespace ohmwright::defrost_sensor {

namespace {

/// A way is worth naming when it decides at least one such part in five.
constexpr double least_chance = 0.2;
/// What makes this share of the doubt is worth an advice of its own.
constexpr double much_of_the_doubt = 0.25;
/// What makes less than this share is not worth naming.
constexpr double little_of_the_doubt = 0.05;

bool found(const Scene& scene, RuleIndex rule, Outcome outcome) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(),
                     [&](const Finding& finding) { return finding.rule == rule && finding.outcome == outcome; });
}

template <class Predicate>
const PreparedReading* first_reading(const Scene& scene, Predicate predicate) {
  const auto readings = scene.evidence.readings();
  const auto reading = std::find_if(readings.begin(), readings.end(), predicate);
  return reading == readings.end() ? nullptr : &*reading;
}

/// Whole percent: advice is no place for digits. Never "100 %", which nobody can promise.
double whole_percent(double share) { return std::min(99.0, std::round(100.0 * share)); }

/// The advice, or null where its chance is too small to be worth the way.
Advice* advise_with_chance(const Scene& scene, AdviceIndex index, double chance, double share) {
  if (chance < least_chance || share < little_of_the_doubt) return nullptr;
  Advice& advice = scene.findings.advise(index);
  advice.probability_decided = chance;
  tell(advice, "chance_percent", whole_percent(chance));
  tell(advice, "share_percent", whole_percent(share));
  return &advice;
}

void advise_on_ice_water(const Scene& scene, double share) {
  Advice* advice = advise_with_chance(scene, ice_point, chance_at_ice_point(scene), share);
  if (advice == nullptr) return;
  tell(*advice, "ice", AnyQuantity(Temperature::from_celsius(0.0)));
  tell(*advice, "bath", kelvins(ice_bath_kelvin));
}

/// The reading is low and may have been taken in circuit: whatever else could be done, the connector comes first.
bool is_low_and_unstated(const Scene& scene) {
  return found(scene, resistance_at_temperature, Outcome::undecided) && scene.connection_unstated &&
         scene.fused->log.value() < scene.fused->limits.lower;
}

/// What would decide the resistance, if it is that which is open.
void advise_on_doubt(const Scene& scene) {
  if (!scene.fused || scene.readings_disagree() || !found(scene, resistance_at_temperature, Outcome::undecided)) return;
  if (is_low_and_unstated(scene)) return;
  const Doubt doubt = doubt_of(scene);
  if (doubt.scatter >= much_of_the_doubt) {  // no meter and no bath mends a contact that jumps
    scene.findings.advise(wait_until_steady);
    return;
  }
  if (!read_at_ice_point(scene)) advise_on_ice_water(scene, doubt.temperature);
  advise_with_chance(scene, better_meter, chance_with_better_meter(scene), doubt.meter);
  if (doubt.model >= much_of_the_doubt)
    tell(scene.findings.advise(chart_of_the_part), "share_percent", whole_percent(doubt.model));
}

/// What the circumstances of the readings lack.
void advise_on_circumstances(const Scene& scene) {
  const auto is_alone = [](const PreparedReading& r) { return is_ohms(r) && !is_live(r) && !is_in_circuit(r); };
  const auto lacks_temperature = [&](const PreparedReading& r) {
    return is_alone(r) && r.shown == Shown::value && !is_within_leads(r) && r.condition(part_temperature) == nullptr &&
           r.condition(coil_temperature) == nullptr;
  };
  const auto unstated = [](const PreparedReading& r) {
    return is_ohms(r) && r.connection == Connection::unstated && is_within_leads(r);
  };
  const auto in_the_circuit = [](const PreparedReading& r) { return is_ohms(r) && is_in_circuit(r) && !is_live(r); };
  if (first_reading(scene, [](const PreparedReading& r) { return is_ohms(r) && is_live(r); }) != nullptr)
    scene.findings.advise(read_unplugged);
  if (scene.ratings != nullptr && first_reading(scene, lacks_temperature) != nullptr)
    scene.findings.advise(state_temperature);
  const bool other_unstated = scene.connection_unstated && (found(scene, two_temperatures, Outcome::undecided) ||
                                                            found(scene, end_of_defrost, Outcome::undecided));
  const bool only_in_circuit = found(scene, in_circuit, Outcome::undecided) && scene.usable.empty();
  if (only_in_circuit || is_low_and_unstated(scene) || other_unstated || first_reading(scene, unstated) != nullptr)
    scene.findings.advise(lift_a_lead);
  if (only_in_circuit && first_reading(scene, in_the_circuit) != nullptr) scene.findings.advise(prove_dead_and_swap);
}

void advise_on_over_range(const Scene& scene) {
  const PreparedReading* over = first_reading(scene, [](const PreparedReading& r) {
    return is_ohms(r) && shows_more_than_range(r) && !is_live(r) && !is_in_circuit(r);
  });
  const PreparedReading* value = first_reading(scene, [](const PreparedReading& r) {
    return is_ohms(r) && r.shown == Shown::value && !is_live(r) && !is_in_circuit(r);
  });
  if (value != nullptr)
    scene.findings.advise(move_the_lead);
  else
    tell(scene.findings.advise(higher_range), "highest", ohms(highest_of_good_part(scene, *over)));
}

/// The part is condemned: what to do before and after buying one.
void advise_on_replacement(const Scene& scene) {
  const bool open_or_short =
      found(scene, open_sensor, Outcome::out_of_limits) || found(scene, short_sensor, Outcome::out_of_limits);
  if (open_or_short) scene.findings.advise(read_at_the_sensor);
  const bool value = found(scene, resistance_at_temperature, Outcome::out_of_limits);
  if (value && found(scene, two_temperatures, Outcome::silent)) scene.findings.advise(second_temperature);
  if (open_or_short || value || found(scene, two_temperatures, Outcome::out_of_limits) ||
      found(scene, moisture_leakage, Outcome::out_of_limits))
    scene.findings.advise(replace_alike);
}

/// What single rules ask for.
void advise_on_findings(const Scene& scene) {
  if (found(scene, open_sensor, Outcome::undecided)) advise_on_over_range(scene);
  if (found(scene, moisture_leakage, Outcome::undecided)) scene.findings.advise(dry_it);
  if (found(scene, readings_agree, Outcome::undecided)) scene.findings.advise(read_again);
  const bool already = !scene.findings.advice().empty() && scene.findings.advice().front().text == wait_until_steady;
  if (found(scene, steady_readings, Outcome::undecided) && !already) scene.findings.advise(wait_until_steady);
  if (found(scene, seated_on_coil, Outcome::undecided)) scene.findings.advise(seat_it_again);
}

/// The part passed: the fault is somewhere else.
void advise_on_pass(const Scene& scene) {
  const auto& all = scene.findings.findings();
  const bool passed = found(scene, resistance_at_temperature, Outcome::within_limits) &&
                      std::all_of(all.begin(), all.end(), [](const Finding& finding) {
                        return finding.outcome == Outcome::within_limits || finding.outcome == Outcome::silent;
                      });
  if (passed) scene.findings.advise(look_elsewhere);
}

void advise_without_ratings(const Scene& scene) {
  if (scene.ratings != nullptr) return;
  if (found(scene, open_sensor, Outcome::out_of_limits) || found(scene, short_sensor, Outcome::out_of_limits)) return;
  tell(scene.findings.advise(chart_of_the_part), "share_percent", 100.0);
  if (found(scene, twin_comparison, Outcome::silent)) scene.findings.advise(compare_twin);
}

}  // namespace

std::vector<TextEntry> describe_advice() {
  return {
      {"ice-point",
       OHMWRIGHT_TEXT("The part's temperature is {share_percent} % of the doubt. Read it in stirred ice water ({ice} ± "
                      "{bath}, bagged, ten minutes): that would settle it in {chance_percent} cases of 100.")},
      {"better-meter",
       OHMWRIGHT_TEXT(
           "The meter is {share_percent} % of the doubt. The same reading by one of ±0.3 % would settle it in "
           "{chance_percent} cases of 100.")},
      {"higher-range", OHMWRIGHT_TEXT("Choose a range past {highest} and read again.")},
      {"lift-a-lead",
       OHMWRIGHT_TEXT(
           "Pull the sensor's connector at the board, or lift one of its leads, and read the sensor alone.")},
      {"prove-dead-and-swap",
       OHMWRIGHT_TEXT("In circuit: prove the points dead (near zero volts), read, swap the probes and read again.")},
      {"dry-it",
       OHMWRIGHT_TEXT("Keep the wet reading as found, then dry sensor, splice and connector and read again at a known "
                      "temperature.")},
      {"state-temperature",
       OHMWRIGHT_TEXT(
           "Measure the temperature of the part itself, after a soak, and give it with its doubt. Ice on it does "
           "not mean 0 °C.")},
      {"chart-of-the-part",
       OHMWRIGHT_TEXT(
           "Find the chart of this very part: not knowing its curve there is {share_percent} % of the doubt.")},
      {"compare-twin",
       OHMWRIGHT_TEXT(
           "Read a twin, a new part or another sensor of the appliance, side by side at the same temperature.")},
      {"second-temperature",
       OHMWRIGHT_TEXT(
           "Before you buy: read it at a second temperature, ice water or room. It tells a drifted sensor from "
           "another curve, a corroded joint or a leakage.")},
      {"wait-until-steady",
       OHMWRIGHT_TEXT("Leave it in the bath and read again until three readings, a minute apart, agree within 0.5 %.")},
      {"read-again",
       OHMWRIGHT_TEXT("Read again with clean contacts, fingers off the probes, and the temperature measured anew.")},
      {"seat-it-again",
       OHMWRIGHT_TEXT(
           "Clear the ice, seat the sensor and its clip firmly on the tube its maker chose, and compare again; "
           "if it still differs, check it in ice water.")},
      {"read-unplugged",
       OHMWRIGHT_TEXT("Unplug the appliance, prove it dead, pull the sensor's connector and read the ohms again.")},
      {"move-the-lead",
       OHMWRIGHT_TEXT("Clip the probes on, then move lead, joint and connector while you watch the meter. If OL comes "
                      "back, the break is where you moved it.")},
      {"read-at-the-sensor",
       OHMWRIGHT_TEXT("Before you buy: open the joint and read at the sensor's own leads. If it reads right there, the "
                      "fault is in the harness or a connector.")},
      {"replace-alike",
       OHMWRIGHT_TEXT(
           "If you fit a new one: the same curve (ohms at 25 °C and B), lead and clip; seal the joint against "
           "moisture, and read the new one before you close up.")},
      {"look-elsewhere",
       OHMWRIGHT_TEXT(
           "Leave the sensor in. Look next at its connector and harness, its seat on the coil, then at heater, "
           "limit thermostat and control.")},
  };
}

void advise(const Scene& scene) {
  advise_on_doubt(scene);
  advise_on_circumstances(scene);
  advise_on_findings(scene);
  advise_on_replacement(scene);
  advise_on_pass(scene);
  advise_without_ratings(scene);
}

}  // namespace ohmwright::defrost_sensor
