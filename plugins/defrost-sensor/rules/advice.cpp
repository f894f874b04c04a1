#include "rules/advice.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include <ohmwright/component/shared_thresholds.hpp>
#include <ohmwright/verdict/decimal_slip.hpp>
#include <ohmwright/verdict/rule_outcomes.hpp>

#include "rules/matching_class.hpp"
#include "rules/open_sensor.hpp"
#include "rules/slope.hpp"
#include "rules/twin_comparison.hpp"
#include "rules/unit_slip.hpp"
#include "rules/volts_at_board.hpp"
#include "rules/what_decides.hpp"

namespace ohmwright::defrost_sensor {

namespace {

/// What makes this share of the doubt is worth an advice of its own.
constexpr double much_of_the_doubt = 0.25;
/// What makes less than this share is not worth naming.
constexpr double little_of_the_doubt = 0.05;

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
  if (chance < least_chance_worth_naming || share < little_of_the_doubt) return nullptr;
  Advice& advice = scene.findings.advise(index);
  advice.probability_decided = chance;
  tell(advice, "chance_percent", whole_percent(chance));
  tell(advice, "share_percent", whole_percent(share));
  return &advice;
}

void advise_on_ice_water(const Scene& scene, double share) {
  if (near_ice_point(scene)) {  // at 0 °C, but with the doubt of a thermometer in air
    advise_with_chance(scene, say_ice_doubt, chance_at_ice_point(scene), share);
    return;
  }
  Advice* advice = advise_with_chance(scene, ice_point, chance_at_ice_point(scene), share);
  if (advice == nullptr) return;
  tell(*advice, "ice", AnyQuantity(Temperature::from_celsius(0.0)));
  tell(*advice, "bath", kelvins(ice_bath_kelvin));
}

/// The reading is low and may have been taken in circuit: whatever else could be done, the connector comes first.
bool is_low_and_unstated(const Scene& scene, const RuleOutcomes& said) {
  return said.has(resistance_at_temperature, Outcome::undecided) && scene.connection_unstated &&
         scene.fused->log.value() < scene.fused->limits.lower;
}

/// A curve that is in doubt in the cold is not in room temperature, where its figures are stated.
void advise_on_model(const Scene& scene, const Doubt& doubt) {
  if (doubt.model < much_of_the_doubt) return;
  const double chance = chance_at_room(scene);
  if (chance >= least_chance_worth_naming && !read_at_room(scene)) {
    Advice& advice = scene.findings.advise(room_point);
    advice.probability_decided = chance;
    tell(advice, "chance_percent", whole_percent(chance));
    tell(advice, "room", AnyQuantity(Temperature::from_celsius(room_celsius)));
    tell(advice, "doubt", kelvins(room_kelvin));
    return;
  }
  tell(scene.findings.advise(chart_of_the_part), "share_percent", whole_percent(doubt.model));
}

/// What would decide the resistance, if it is that which is open.
void advise_on_doubt(const Scene& scene, const RuleOutcomes& said) {
  if (!scene.fused || scene.readings_disagree() || !said.has(resistance_at_temperature, Outcome::undecided)) return;
  if (is_low_and_unstated(scene, said) || said.has(Outcome::out_of_limits) || said.holds_back()) return;
  const Doubt doubt = doubt_of(scene);
  if (doubt.scatter >= much_of_the_doubt) {  // no meter and no bath mends a contact that jumps
    scene.findings.advise(wait_until_steady);
    return;
  }
  if (!read_at_ice_point(scene) && doubt.temperature >= much_of_the_doubt)
    advise_on_ice_water(scene, doubt.temperature);
  advise_with_chance(scene, better_meter, chance_with_better_meter(scene), doubt.meter);
  advise_on_model(scene, doubt);
}

/// What the circumstances of the readings lack.
void advise_on_circumstances(const Scene& scene, const RuleOutcomes& said) {
  const auto is_alone = [](const PreparedReading& r) { return is_ohms(r) && !is_live(r) && !is_in_circuit(r); };
  const auto lacks_temperature = [&](const PreparedReading& r) {
    return is_alone(r) && r.shown == Shown::value && !is_within_leads(r) && !range_hides_a_short(r) &&
           r.condition(part_temperature) == nullptr && r.condition(coil_temperature) == nullptr;
  };
  const auto unstated = [](const PreparedReading& r) {
    return is_ohms(r) && r.connection == Connection::unstated && is_within_leads(r);
  };
  const auto in_the_circuit = [](const PreparedReading& r) { return is_ohms(r) && is_in_circuit(r) && !is_live(r); };
  if (first_reading(scene, [](const PreparedReading& r) { return is_ohms(r) && is_live(r); }) != nullptr)
    scene.findings.advise(read_unplugged);
  if (scene.ratings != nullptr && first_reading(scene, lacks_temperature) != nullptr)
    scene.findings.advise(state_temperature);
  const bool other_unstated =
      scene.connection_unstated && said.holds_back() &&
      (said.has(two_temperatures, Outcome::undecided) || said.has(end_of_defrost, Outcome::undecided));
  const bool only_in_circuit = said.has(in_circuit, Outcome::undecided) && scene.usable.empty();
  const bool off_for_some =
      first_reading(scene, [](const PreparedReading& r) { return r.connection == Connection::lead_off; }) != nullptr;
  if (only_in_circuit || is_low_and_unstated(scene, said) || other_unstated ||
      first_reading(scene, unstated) != nullptr)
    scene.findings.advise(off_for_some && !only_in_circuit ? say_for_all : lift_a_lead);
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

/// The joint, the splice or the connector may be what is wrong: they are looked at before a part is bought.
bool joint_is_suspected(const RuleOutcomes& said) {
  return said.has(two_temperatures, Outcome::out_of_limits) || said.has(moisture_leakage, Outcome::out_of_limits) ||
         said.has(in_circuit, Outcome::out_of_limits);
}

bool is_far_off(const Scene& scene) {
  constexpr double factor = 10.0;
  return scene.fused && std::abs(scene.fused->log.value()) > std::log(factor);
}

/// A second temperature tells a drifted sensor from another curve; the one that it was not read at yet.
void advise_on_second_temperature(const Scene& scene, const RuleOutcomes& said) {
  if (!said.has(resistance_at_temperature, Outcome::out_of_limits)) return;
  if (!said.has(two_temperatures, Outcome::silent) || is_far_off(scene)) return;
  scene.findings.advise(read_at_ice_point(scene) ? second_temperature_room : second_temperature);
}

/// The part is condemned: what to do before and after buying one.
void advise_on_replacement(const Scene& scene, const RuleOutcomes& said) {
  if (!said.has(Outcome::out_of_limits)) return;
  const bool short_or_near =
      said.has(short_sensor, Outcome::out_of_limits) || (is_far_off(scene) && scene.fused->log.value() < 0.0);
  const bool open_or_short = said.has(open_sensor, Outcome::out_of_limits) || short_or_near || is_far_off(scene);
  // A broken test lead or a flat battery shows OL, and never a short.
  if (open_or_short) scene.findings.advise(short_or_near ? clips_touch : touch_the_probes);
  if (open_or_short) scene.findings.advise(read_at_the_sensor);
  if (joint_is_suspected(said)) scene.findings.advise(joint_first);
  if (const std::string_view fitting = scene.fused ? class_that_fits(scene) : ""; !fitting.empty())
    tell(scene.findings.advise(read_at_several_temperatures(scene) ? right_class : right_class_here), "class",
         std::string(fitting));
  advise_on_second_temperature(scene, said);
  scene.findings.advise(replace_alike);
}

/// A wet reading of which it was not said how the part was connected.
bool is_wet_and_unstated(const PreparedReading& r) {
  return is_ohms(r) && is_wet(r) && r.connection == Connection::unstated;
}

/// Wet against dry is open: because only one of the two was read, or because both do not tell.
void advise_on_moisture(const Scene& scene, const RuleOutcomes& said) {
  if (!scene.fused)
    scene.findings.advise(dry_it);
  else
    scene.findings.advise(
        said.holds_back() && first_reading(scene, is_wet_and_unstated) != nullptr ? wet_connector : wet_and_dry_again);
}

/// What single rules ask for.
void advise_on_findings(const Scene& scene, const RuleOutcomes& said) {
  if (said.has(open_sensor, Outcome::undecided)) advise_on_over_range(scene);
  if (first_reading(scene, [](const PreparedReading& r) {
        return range_hides_a_short(r) && !is_live(r) && !is_in_circuit(r);
      }) != nullptr)
    scene.findings.advise(lowest_range);
  if (said.has(volts_at_board, Outcome::undecided))
    scene.findings.advise(said.holds_back() ? stop_at_mains : read_unplugged);
  if (said.has(moisture_leakage, Outcome::undecided)) advise_on_moisture(scene, said);
  if (const std::optional<ImpossibleSlope> slope = impossible_slope(scene))
    scene.findings.advise(*slope == ImpossibleSlope::stood_still ? let_it_settle : read_again);
  else if (said.has(readings_agree, Outcome::undecided))
    scene.findings.advise(read_again);
  if (first_reading(scene, [&](const PreparedReading& r) { return is_ohms(r) && repeats_jump(scene.evidence, r); }) !=
      nullptr) {
    scene.findings.advise(move_the_lead);
    return;
  }
  const bool already = !scene.findings.advice().empty() && scene.findings.advice().front().text == wait_until_steady;
  if (said.has(steady_readings, Outcome::undecided) && !already) scene.findings.advise(wait_until_steady);
  if (said.has(seated_on_coil, Outcome::undecided)) scene.findings.advise(seat_it_again);
}

/// The part passed: the fault is somewhere else.
void advise_on_pass(const Scene& scene, const RuleOutcomes& said) {
  if (!said.has(resistance_at_temperature, Outcome::within_limits) || said.has(Outcome::out_of_limits) ||
      said.holds_back())
    return;
  // A leak that could not be told must be looked for first: wet and dry once more.
  if (said.has(end_of_defrost, Outcome::undecided) || said.has(moisture_leakage, Outcome::undecided)) return;
  if (said.has(twin_comparison, Outcome::undecided) && twins_lie_far_apart(scene)) {
    scene.findings.advise(twins_in_ice_water);
    return;
  }
  scene.findings.advise(said.has(moisture_leakage, Outcome::silent) ? look_elsewhere : look_elsewhere_no_leak);
}

/// No verdict leaves without a next step.
void advise_at_least(const Scene& scene) {
  if (!scene.findings.advice().empty()) return;
  if (!scene.fused && scene.ratings != nullptr && volts_lack_the_control(scene)) {
    scene.findings.advise(name_the_control);
    return;
  }
  scene.findings.advise(scene.fused ? read_more_carefully : state_temperature);
}

void advise_without_ratings(const Scene& scene, const RuleOutcomes& said) {
  if (scene.ratings != nullptr) return;
  if (said.has(open_sensor, Outcome::out_of_limits) || said.has(short_sensor, Outcome::out_of_limits)) return;
  scene.findings.advise(read_at_several_temperatures(scene) ? find_the_sheet_only : find_the_sheet);
  if (said.has(twin_comparison, Outcome::silent)) scene.findings.advise(compare_twin);
}

/// Of several readings judged together, the first that is right with its point moved.
std::optional<DecimalSlip> slip_of(const Scene& scene, const RuleOutcomes& said) {
  if (const std::optional<DecimalSlip> slip = decimal_slip(scene.findings.findings())) return slip;
  if (scene.usable.size() < 2 || !said.has(resistance_at_temperature, Outcome::out_of_limits)) return std::nullopt;
  for (const Deviation& deviation : scene.usable) {
    const double nominal = std::exp(deviation.log_nominal);
    const Limits limits{ohms(nominal * std::exp(deviation.limits.lower)),
                        ohms(nominal * std::exp(deviation.limits.upper))};
    const std::optional<DecimalSlip> slip = decimal_slip(ohms(deviation.reading->value.value()), limits);
    if (slip) return slip;
  }
  return std::nullopt;
}

}  // namespace

void advise(const Scene& scene) {
  const RuleOutcomes said(scene.findings);
  if (const std::optional<DecimalSlip> slip = slip_of(scene, said)) {
    Advice& advice = scene.findings.advise(misread_decimal);
    advice.arguments.push_back({"shown", slip->shown});
    advice.arguments.push_back({"right", slip->right_as});
  } else if (const std::optional<UnitSlip> unit = unit_slip(scene)) {
    Advice& advice = scene.findings.advise(unit->fahrenheit ? unit_was_fahrenheit : unit_was_celsius);
    tell(advice, "shown", ohms(unit->ohms));
    tell(advice, "degrees", unit->degrees);
  }
  const bool came_and_went = said.has(open_sensor, Outcome::undecided) && said.holds_back();
  if (!came_and_went) advise_on_doubt(scene, said);
  advise_on_circumstances(scene, said);
  advise_on_findings(scene, said);
  advise_on_replacement(scene, said);
  advise_on_pass(scene, said);
  advise_without_ratings(scene, said);
  advise_at_least(scene);
}

}  // namespace ohmwright::defrost_sensor
