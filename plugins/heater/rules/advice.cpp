#include "rules/advice.hpp"

#include <optional>

#include <ohmwright/component/in_circuit.hpp>
#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/verdict/decimal_slip.hpp>

#include "part/leakage.hpp"
#include "rules/advice_on_load.hpp"
#include "rules/insulation.hpp"

namespace ohmwright::heater {

namespace {

bool is_any_ohms(const PreparedReading& r) {
  return r.measurand == resistance || r.measurand == resistance_swapped || r.measurand == insulation_resistance;
}

/// What a lead that is still on leaves open.
bool needs_a_lead_lifted(const Scene& scene) {
  const bool low_or_short = any_of(scene.evidence, [&](const PreparedReading& r) {
    return is_ohms(r) && !is_live(r) && r.connection == Connection::unstated && is_within_leads(scene.ratings, r);
  });
  const bool low_unstated = scene.cold && !scene.cold->stated_off &&
                            scene.cold->ohms.value() < scene.cold->limits.lower &&
                            scene.findings.has(element_resistance, Outcome::undecided);
  return asks_to_read_alone(scene.findings, in_circuit) ||
         (low_or_short && scene.findings.has(short_element, Outcome::undecided)) || low_unstated;
}

void advise_on_ohms(const Scene& scene) {
  if (any_of(scene.evidence, [](const PreparedReading& r) { return is_any_ohms(r) && is_live(r); }))
    scene.findings.advise(read_unplugged);
  const bool ohms_read =
      any_of(scene.evidence, [](const PreparedReading& r) { return is_ohms(r) || r.measurand == resistance_swapped; });
  if (scene.ratings != nullptr && !ohms_read && scene.findings.has(element_resistance, Outcome::silent))
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

/// A low reading to the frame of which it was not said that the leads were off.
bool leaks_with_leads_on(const Scene& scene) {
  return any_of(scene.evidence, [&](const PreparedReading& r) {
    return r.measurand == insulation_resistance && !is_lead_off(r) && r.shown == Shown::value &&
           r.value.value() < least_to_frame(scene.ratings);
  });
}

/// By a tester, with volts that prove something.
bool was_tested(const Scene& scene) {
  const InsulationRule asked{insulation, insulation_resistance, test_voltage};
  return any_of(scene.evidence, [&](const PreparedReading& r) {
    return r.measurand == insulation_resistance && !is_live(r) && by_insulation_tester(r, asked);
  });
}

/// A leak that condemns may have been damp. What was dried before and leaks still is not dried again.
void advise_on_damp(const Scene& scene) {
  advise_if_it_was_wet(scene);
  if (!any_of(scene.evidence, [](const PreparedReading& r) {
        return r.measurand == insulation_resistance && r.moisture == Moisture::dry;
      }))
    scene.findings.advise(dry_and_repeat);
}

void advise_on_insulation(const Scene& scene) {
  const bool frame_read = any_of(
      scene.evidence, [](const PreparedReading& r) { return r.measurand == insulation_resistance && !is_live(r); });
  if (!frame_read && scene.findings.has(element_resistance, Outcome::within_limits)) scene.findings.advise(frame_too);
  if (!frame_read || !scene.findings.has(insulation, Outcome::undecided)) return;
  if (leaks_only_when_wet(scene)) {
    advise_on_weak_wet_test(scene);
    scene.findings.advise(seal_its_ends);
    return;
  }
  const bool wet = any_of(scene.evidence, [](const PreparedReading& r) {
    return r.measurand == insulation_resistance && r.moisture == Moisture::wet;
  });
  advise_on_weak_wet_test(scene);
  if (wet) scene.findings.advise(dry_and_repeat);
  if (!was_tested(scene))
    scene.findings.advise(insulation_tester);  // both leads off, it says
  else if (leaks_with_leads_on(scene))
    scene.findings.advise(both_leads_off);
  else if (!wet)
    scene.findings.advise(test_once_more);
  if (leaks_with_leads_on(scene)) scene.findings.advise(in_place_of_leads_on);
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
  if (scene.findings.has(insulation, Outcome::out_of_limits)) {
    scene.findings.advise(do_not_energise);
    if (!touches_frame(scene.findings, insulation)) {
      advise_on_damp(scene);
      advise_on_leakage(scene);
    }
  }
  if (scene.findings.has(supply_without_current, Outcome::out_of_limits)) {
    if (is_intact(scene))
      scene.findings.advise(look_upstream_first);
    else
      advise_to_heat(scene, opens_when_hot);
  }
  const bool shows_over_range =
      any_of(scene.evidence, [](const PreparedReading& r) { return is_ohms(r) && shows_more_than_range(r); });
  if (scene.findings.has(open_element, Outcome::out_of_limits) ||
      (scene.findings.has(in_circuit, Outcome::out_of_limits) && shows_over_range))
    scene.findings.advise(touch_the_probes);
  if (scene.findings.has(in_circuit, Outcome::out_of_limits)) scene.findings.advise(lift_a_lead);
  if (scene.findings.has(open_element, Outcome::out_of_limits) ||
      scene.findings.has(element_resistance, Outcome::out_of_limits) ||
      scene.findings.has(short_element, Outcome::out_of_limits))
    scene.findings.advise(before_buying);
  if (scene.findings.has(power_under_load, Outcome::out_of_limits))
    scene.findings.advise(scene.load && scene.load->whole_plug ? before_buying_watts : before_buying_power);
  advise_on_replacement(scene);
}

/// Before every other advice.
void advise_to_switch_off(const Scene& scene) {
  Advice& advice = scene.findings.advise(switch_off_now);
  tell(advice, "volts", volts(scene.far_too_many_volt));
  tell(advice, "voltage", AnyQuantity(*scene.ratings->voltage));
}

}  // namespace

void advise(const Scene& scene) {
  if (scene.far_too_many_volt > 0.0) advise_to_switch_off(scene);
  if (std::optional<DecimalSlip> slip = decimal_slip(scene.findings.findings())) {
    const PreparedReading* read = last_value(scene.evidence, resistance);
    if (read != nullptr && slip->shown.dimension() == Dimension::resistance)
      slip = slip_as_displayed(*slip, read->displayed);
    Advice& advice = scene.findings.advise(misread_decimal);
    advice.arguments.push_back({"shown", slip->shown});
    advice.arguments.push_back({"right", slip->right_as});
  }
  if (scene.findings.has(Outcome::out_of_limits)) {
    advise_after_condemning(scene);
    return;
  }
  advise_on_lost_volts(scene);
  advise_on_ohms(scene);
  advise_on_insulation(scene);  // before anything that heats it
  advise_on_witness(scene);
  advise_on_near_end(scene);
  advise_on_load(scene);
  if (scene.ratings == nullptr) scene.findings.advise(say_ratings);
  if (scene.findings.advice().empty() && scene.findings.has(element_resistance, Outcome::within_limits))
    scene.findings.advise(look_upstream);
}

}  // namespace ohmwright::heater
