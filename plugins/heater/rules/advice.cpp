#include "rules/advice.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <ohmwright/component/in_circuit.hpp>
#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/verdict/decimal_slip.hpp>
#include <ohmwright/verdict/what_would_decide.hpp>

#include "part/leakage.hpp"

namespace ohmwright::heater {

namespace {

/// A way is worth naming when it decides at least one such part in five.
constexpr double least_chance = 0.2;

bool found(const Scene& scene, RuleIndex rule, Outcome outcome) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [&](const Finding& f) { return f.rule == rule && f.outcome == outcome; });
}

template <class Predicate>
bool any_reading(const Scene& scene, Predicate predicate) {
  const auto readings = scene.evidence.readings();
  return std::any_of(readings.begin(), readings.end(), predicate);
}

bool is_any_ohms(const PreparedReading& r) {
  return r.measurand == resistance || r.measurand == resistance_swapped || r.measurand == insulation_resistance;
}

/// A good bench meter on this element: 0.3 % and 0.1 ohm, leads zeroed (generic class, common practice, no source).
double chance_of_better_meter(const Scene& scene) {
  const ColdOhms& cold = *scene.cold;
  const double u = (0.003 * cold.ohms.value() + 0.1) / std::numbers::sqrt3;
  return probability_of_decision(cold.ohms, cold.limits.lower, cold.limits.upper, {u, 0.0}, scene.settings.confidence);
}

/// What a lead that is still on leaves open.
bool needs_a_lead_lifted(const Scene& scene) {
  const bool low_or_short = any_reading(scene, [&](const PreparedReading& r) {
    return is_ohms(r) && !is_live(r) && r.connection == Connection::unstated && is_within_leads(scene.ratings, r);
  });
  const bool low_unstated = scene.cold && !scene.cold->stated_off &&
                            scene.cold->ohms.value() < scene.cold->limits.lower &&
                            found(scene, element_resistance, Outcome::undecided);
  return asks_to_read_alone(scene.findings, in_circuit) ||
         (low_or_short && found(scene, short_element, Outcome::undecided)) || low_unstated;
}

void advise_on_ohms(const Scene& scene) {
  if (any_reading(scene, [](const PreparedReading& r) { return is_any_ohms(r) && is_live(r); }))
    scene.findings.advise(read_unplugged);
  const bool ohms_read =
      any_reading(scene, [](const PreparedReading& r) { return is_ohms(r) || r.measurand == resistance_swapped; });
  if (scene.ratings != nullptr && !ohms_read && found(scene, element_resistance, Outcome::silent))
    scene.findings.advise(read_cold);
  if (needs_a_lead_lifted(scene)) scene.findings.advise(lift_a_lead);
  if (asks_to_prove_dead_and_swap(scene.findings, in_circuit)) scene.findings.advise(prove_dead_and_swap);
  if (scene.readings_disagree() || scene.jumping > 0.0) scene.findings.advise(firm_probes);
  for (const Finding& finding : scene.findings.findings()) {
    if (finding.rule != open_element || finding.outcome != Outcome::undecided) continue;
    scene.findings.advise(finding.holds_back ? firm_probes : higher_range);
    break;
  }
}

/// Nothing is heated until its insulation is known to be within its limits: read by a tester, not by an ohmmeter.
bool may_be_heated(const Scene& scene) { return found(scene, insulation, Outcome::within_limits); }

bool advised(const Scene& scene, AdviceIndex what) {
  const auto& all = scene.findings.advice();
  return std::any_of(all.begin(), all.end(), [what](const Advice& one) { return one.text == what; });
}

/// Advice that heats it; until it may be heated, the test that comes before instead.
void advise_to_heat(const Scene& scene, AdviceIndex what) {
  if (may_be_heated(scene))
    scene.findings.advise(what);
  else if (!advised(scene, insulation_tester))
    scene.findings.advise(insulation_tester);
}

/// Its cold ohms are right.
bool is_intact(const Scene& scene) {
  return scene.cold && !scene.readings_disagree() && scene.jumping <= 0.0 &&
         scene.cold->outcome == Outcome::within_limits;
}

/// Cold ohms and what it draws: they contradict each other, or the one leaves open what the other would tell.
void advise_on_witness(const Scene& scene) {
  const bool load_jumps =
      any_reading(scene, [&](const PreparedReading& r) { return is_under_load(r) && repeats_jump(scene.evidence, r); });
  const bool contradiction = scene.witness == Witness::contradiction;
  if (contradiction && !may_be_heated(scene)) scene.findings.advise(read_cold);
  if (contradiction || load_jumps) advise_to_heat(scene, read_both_again);
  if (!scene.load || scene.load->far_from_rated) {
    if (scene.load) scene.findings.advise(find_the_volts);
    return;
  }
  const Load& load = *scene.load;
  const bool good_cold = found(scene, element_resistance, Outcome::within_limits) && scene.witness == Witness::cold;
  const bool more_than_cold_ohms = good_cold && load.too_much() && load.outcome == Outcome::out_of_limits;
  if (load.others_may_draw() || more_than_cold_ohms) advise_to_heat(scene, clamp_alone);
}

/// The ohms lie near an end: the better meter, and the clamp, for which the wire's gain when hot is no guess.
void advise_on_near_end(const Scene& scene) {
  if (!scene.cold || scene.readings_disagree() || scene.jumping > 0.0 ||
      !found(scene, element_resistance, Outcome::undecided))
    return;
  if (scene.witness == Witness::contradiction) return;
  if (!scene.cold->stated_off && scene.cold->ohms.value() < scene.cold->limits.lower) return;  // a lead to lift first
  if (scene.cold->read_at && *scene.cold->read_at > 293.15) scene.findings.advise(let_it_cool);
  if (scene.ratings->knows_power() && !scene.load) advise_to_heat(scene, clamp_under_load);
  const double chance = chance_of_better_meter(scene);
  if (chance < least_chance) return;
  Advice& advice = scene.findings.advise(better_meter);
  advice.probability_decided = chance;
  tell(advice, "chance_percent", 100.0 * chance);
}

void advise_on_load(const Scene& scene) {
  const auto under_load_without_line = [](const PreparedReading& r) {
    return is_under_load(r) && r.condition(line_voltage) == nullptr;
  };
  const bool told_by_terminals = last_live_value(scene.evidence, terminal_voltage) != nullptr;
  const bool too_much = scene.load && scene.load->too_much();
  const bool load_jumps =
      any_reading(scene, [&](const PreparedReading& r) { return is_under_load(r) && repeats_jump(scene.evidence, r); });
  for (const Finding& finding : scene.findings.findings())
    if (finding.rule == power_under_load && finding.holds_back && !told_by_terminals && !too_much && !load_jumps) {
      if (!finding.measured && is_intact(scene)) {  // no current, and it would draw: something before it is open
        scene.findings.advise(look_upstream);
        break;
      }
      advise_to_heat(scene, finding.measured ? volts_and_amperes_at_element : volts_at_element);
      break;
    }
  if (scene.ratings != nullptr && !told_by_terminals && any_reading(scene, under_load_without_line))
    scene.findings.advise(say_line_voltage);
  if (!found(scene, supply_without_current, Outcome::undecided)) return;
  if (last_live_value(scene.evidence, current) == nullptr)
    advise_to_heat(scene, clamp_with_volts);
  else if (any_reading(scene,
                       [&](const PreparedReading& r) {
                         return r.measurand == current && r.value.value() < no_current_below(scene.ratings);
                       }) &&
           !advised(scene, look_upstream))
    scene.findings.advise(look_upstream);
}

/// A low reading to the frame of which it was not said that the leads were off.
bool leaks_with_leads_on(const Scene& scene) {
  return any_reading(scene, [&](const PreparedReading& r) {
    return r.measurand == insulation_resistance && !is_lead_off(r) && r.shown == Shown::value &&
           r.value.value() < least_to_frame(scene.ratings);
  });
}

void advise_on_insulation(const Scene& scene) {
  const bool frame_read =
      any_reading(scene, [](const PreparedReading& r) { return r.measurand == insulation_resistance && !is_live(r); });
  if (!frame_read && found(scene, element_resistance, Outcome::within_limits)) scene.findings.advise(frame_too);
  if (!frame_read || !found(scene, insulation, Outcome::undecided)) return;
  const bool wet = any_reading(scene, [](const PreparedReading& r) {
    return r.measurand == insulation_resistance && r.moisture == Moisture::wet;
  });
  if (wet) scene.findings.advise(dry_and_repeat);
  const bool told_to_lift = found(scene, element_resistance, Outcome::silent) && scene.ratings != nullptr;
  if (leaks_with_leads_on(scene) && !told_to_lift) scene.findings.advise(lift_a_lead);
  scene.findings.advise(insulation_tester);
}

void advise_on_replacement(const Scene& scene) {
  if (scene.ratings == nullptr || !scene.ratings->knows_power()) {
    scene.findings.advise(replacement_by_plate);
    return;
  }
  Advice& advice = scene.findings.advise(replacement);
  tell(advice, "voltage", AnyQuantity(*scene.ratings->voltage));
  tell(advice, "power", AnyQuantity(*scene.ratings->power));
}

/// The leak in amperes, as the limits of new appliances are stated.
void advise_on_leakage(const Scene& scene) {
  if (scene.ratings == nullptr || !scene.ratings->voltage) return;
  const Voltage line = *scene.ratings->voltage;
  for (const Finding& finding : scene.findings.findings()) {
    if (finding.rule != insulation || !finding.measured || !(finding.measured->value_in_si() > 0.0)) continue;
    const Resistance leaks = Resistance::from_value(finding.measured->value_in_si());
    Advice& advice = scene.findings.advise(leakage_test);
    tell(advice, "voltage", AnyQuantity(line));
    tell(advice, "leakage", AnyQuantity(leakage_through(line, leaks)));
    const Current most = most_leakage(scene.ratings->earth_class, scene.ratings->power);
    tell(advice, "most", AnyQuantity(most));
    tell(advice, "needed", AnyQuantity(insulation_that_leaks(line, most)));
    return;
  }
}

void advise_after_condemning(const Scene& scene) {
  if (found(scene, insulation, Outcome::out_of_limits)) {
    scene.findings.advise(do_not_energise);
    if (!touches_frame(scene.findings, insulation)) {
      scene.findings.advise(dry_and_repeat);
      advise_on_leakage(scene);
    }
  }
  if (found(scene, supply_without_current, Outcome::out_of_limits)) {
    if (is_intact(scene))
      scene.findings.advise(look_upstream_first);
    else
      advise_to_heat(scene, opens_when_hot);
  }
  const bool shows_over_range =
      any_reading(scene, [](const PreparedReading& r) { return is_ohms(r) && shows_more_than_range(r); });
  if (found(scene, open_element, Outcome::out_of_limits) ||
      (found(scene, in_circuit, Outcome::out_of_limits) && shows_over_range))
    scene.findings.advise(touch_the_probes);
  if (found(scene, in_circuit, Outcome::out_of_limits)) scene.findings.advise(lift_a_lead);
  if (found(scene, open_element, Outcome::out_of_limits) || found(scene, element_resistance, Outcome::out_of_limits) ||
      found(scene, short_element, Outcome::out_of_limits))
    scene.findings.advise(before_buying);
  if (found(scene, power_under_load, Outcome::out_of_limits)) scene.findings.advise(before_buying_power);
  advise_on_replacement(scene);
}

}  // namespace

void advise(const Scene& scene) {
  if (std::optional<DecimalSlip> slip = decimal_slip(scene.findings.findings())) {
    const PreparedReading* read = last_value(scene.evidence, resistance);
    if (read != nullptr && slip->shown.dimension() == Dimension::resistance)
      slip = slip_as_displayed(*slip, read->displayed);
    Advice& advice = scene.findings.advise(misread_decimal);
    advice.arguments.push_back({"shown", slip->shown});
    advice.arguments.push_back({"right", slip->right_as});
  }
  const auto& all = scene.findings.findings();
  if (std::any_of(all.begin(), all.end(), [](const Finding& f) { return f.outcome == Outcome::out_of_limits; })) {
    advise_after_condemning(scene);
    return;
  }
  advise_on_ohms(scene);
  advise_on_insulation(scene);  // before anything that heats it
  advise_on_witness(scene);
  advise_on_near_end(scene);
  advise_on_load(scene);
  if (scene.ratings == nullptr) scene.findings.advise(say_ratings);
  if (scene.findings.advice().empty() && found(scene, element_resistance, Outcome::within_limits))
    scene.findings.advise(look_upstream);
}

}  // namespace ohmwright::heater
