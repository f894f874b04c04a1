#include "rules/advice.hpp"

#include <algorithm>

#include "rules/open_sensor.hpp"
#include "rules/what_decides.hpp"

namespace ohmwright::defrost_sensor {

namespace {

/// A way is worth naming when it decides at least one such part in five.
constexpr double least_chance = 0.2;
/// The curve itself is worth a better sheet when it makes this share of the doubt.
constexpr double much_of_the_doubt = 0.25;

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

void advise_with_chance(const Scene& scene, AdviceIndex index, double chance, double share) {
  if (chance < least_chance) return;
  Advice& advice = scene.findings.advise(index);
  advice.probability_decided = chance;
  tell(advice, "chance_percent", 100.0 * chance);
  tell(advice, "share_percent", 100.0 * share);
}

/// What would decide the resistance, if it is that which is open.
void advise_on_doubt(const Scene& scene) {
  if (!scene.fused || scene.readings_disagree() || !found(scene, resistance_at_temperature, Outcome::undecided)) return;
  const Doubt doubt = doubt_of(scene);
  if (!read_at_ice_point(scene)) advise_with_chance(scene, ice_point, chance_at_ice_point(scene), doubt.temperature);
  advise_with_chance(scene, better_meter, chance_with_better_meter(scene), doubt.meter);
  if (doubt.model >= much_of_the_doubt)
    tell(scene.findings.advise(chart_of_the_part), "share_percent", 100.0 * doubt.model);
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
  const bool low_unstated = found(scene, resistance_at_temperature, Outcome::undecided) && scene.connection_unstated &&
                            scene.fused->log.value() < scene.fused->limits.lower;
  if (first_reading(scene, [](const PreparedReading& r) { return is_ohms(r) && is_live(r); }) != nullptr)
    scene.findings.advise(read_unplugged);
  if (scene.ratings != nullptr && first_reading(scene, lacks_temperature) != nullptr)
    scene.findings.advise(state_temperature);
  const bool other_unstated = scene.connection_unstated && (found(scene, two_temperatures, Outcome::undecided) ||
                                                            found(scene, end_of_defrost, Outcome::undecided));
  if (found(scene, in_circuit, Outcome::undecided) || low_unstated || other_unstated ||
      first_reading(scene, unstated) != nullptr)
    scene.findings.advise(lift_a_lead);
  if (first_reading(scene, in_the_circuit) != nullptr && found(scene, in_circuit, Outcome::undecided))
    scene.findings.advise(prove_dead_and_swap);
}

/// What single rules ask for.
void advise_on_findings(const Scene& scene) {
  if (found(scene, open_sensor, Outcome::undecided)) {
    const PreparedReading* reading = first_reading(scene, [](const PreparedReading& r) {
      return is_ohms(r) && shows_more_than_range(r) && !is_live(r) && !is_in_circuit(r);
    });
    tell(scene.findings.advise(higher_range), "highest", ohms(highest_of_good_part(scene, *reading)));
  }
  if (found(scene, moisture_leakage, Outcome::undecided)) scene.findings.advise(dry_it);
  if (found(scene, readings_agree, Outcome::undecided)) scene.findings.advise(read_again);
  if (found(scene, steady_readings, Outcome::undecided)) scene.findings.advise(wait_until_steady);
  if (found(scene, seated_on_coil, Outcome::undecided)) scene.findings.advise(seat_it_again);
  const bool one_temperature_only = found(scene, two_temperatures, Outcome::silent);
  if (found(scene, resistance_at_temperature, Outcome::out_of_limits) && one_temperature_only)
    scene.findings.advise(second_temperature);
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
       OHMWRIGHT_TEXT("The part's temperature is {share_percent} % of the doubt. In stirred ice water (0 °C ± 0.2 K, "
                      "bagged, ten minutes) this part would be decided with a chance of {chance_percent} %.")},
      {"better-meter",
       OHMWRIGHT_TEXT(
           "The meter is {share_percent} % of the doubt. With one of ±0.3 % the same reading would decide this "
           "part with a chance of {chance_percent} %.")},
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
  };
}

void advise(const Scene& scene) {
  advise_on_doubt(scene);
  advise_on_circumstances(scene);
  advise_on_findings(scene);
  advise_without_ratings(scene);
}

}  // namespace ohmwright::defrost_sensor
