#include "rules/advice.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/own_heat.hpp>
#include <ohmwright/component/shared_thresholds.hpp>
#include <ohmwright/verdict/decimal_slip.hpp>
#include <ohmwright/verdict/what_would_decide.hpp>

#include "part/capacitor_discharge.hpp"
#include "rules/capacitor.hpp"
#include "rules/fed_but_still.hpp"
#include "rules/in_circuit.hpp"
#include "rules/insulation.hpp"
#include "rules/open_winding.hpp"
#include "rules/supply_volts.hpp"
#include "rules/turns_by_hand.hpp"
#include "rules/windings_add_up.hpp"

namespace ohmwright::fan_motor {

namespace {

bool is_resistance(const PreparedReading& r) {
  return r.measurand <= start_run || r.measurand == insulation_resistance;
}

bool needs_its_plug_off(const Scene& scene) {
  const bool low_unstated = scene.wound && !scene.wound->stated_off &&
                            scene.wound->ohms.value() < scene.ratings->winding_limits()->lower &&
                            scene.findings.has(winding_resistance, Outcome::undecided);
  return asks_to_read_alone(scene) || may_be_its_protector_in_circuit(scene) ||
         scene.findings.has(short_winding, Outcome::undecided) || low_unstated;
}

void advise_on_ohms(const Scene& scene) {
  const bool in_circuit_only = may_be_its_protector_in_circuit(scene) && !may_be_its_protector(scene);
  if (in_circuit_only || may_be_its_protector(scene)) scene.findings.advise(cool_down);
  if (in_circuit_only) scene.findings.advise(touch_the_probes);
  if (any_of(scene.evidence, [](const PreparedReading& r) { return is_resistance(r) && is_live(r); }))
    scene.findings.advise(read_unplugged);
  if (needs_its_plug_off(scene)) scene.findings.advise(lift_a_lead);
  if (asks_to_prove_dead_and_swap(scene)) scene.findings.advise(prove_dead_and_swap);
  if (scene.readings_disagree() || scene.jumping > 0.0 ||
      (scene.findings.has(windings_add_up, Outcome::undecided) && !are_named_wrongly(scene)))
    scene.findings.advise(firm_probes);
  if (are_named_wrongly(scene)) scene.findings.advise(name_its_terminals);
  if (scene.findings.has(open_winding, Outcome::undecided)) {
    if (may_be_its_protector(scene))
      scene.findings.advise(touch_the_probes);
    else
      scene.findings.advise(scene.wound || is_seen_turning(scene) ? firm_probes : higher_range);
  }
}

/// What condemns a motor by its ohms may be its own heat: a good one is as high where it ran a moment ago.
void advise_on_own_heat(const Scene& scene) {
  if (!scene.wound || !scene.findings.has(winding_resistance, Outcome::out_of_limits)) return;
  const double upper = scene.ratings->winding_limits()->upper;
  const double k = scene.ratings->conductor_constant - Temperature::kelvin_at_zero_celsius;
  const double factor = scene.wound->ohms.value() / upper;
  const double warm_kelvin = (k + scene.wound->read_kelvin) * factor - k;  // IEC 60034-1
  if (factor <= 1.0 || warm_kelvin > scene.wound->read_kelvin + most_own_heat_kelvin) return;
  tell(scene.findings.advise(may_be_warm), "warm", degrees(warm_kelvin));
}

/// The winding's temperature carries the doubt of its ohms: a motor that ran is not at room temperature.
void advise_on_winding(const Scene& scene) {
  if (!scene.findings.has(winding_resistance, Outcome::undecided) || scene.readings_disagree() || scene.jumping > 0.0)
    return;
  if (!scene.wound) {
    scene.findings.advise(winding_temperature);
    return;
  }
  if (needs_its_plug_off(scene)) return;
  const Span limits = *scene.ratings->winding_limits();
  const double value = scene.wound->ohms.value();
  const double by_kelvin = value / (scene.ratings->conductor_constant + 20.0);
  const double u = std::hypot(by_kelvin * 0.5, 0.003 * value + 0.1) / std::numbers::sqrt3;
  const double chance =
      probability_of_decision(scene.wound->ohms, limits.lower, limits.upper, {u, 0.0}, scene.settings.confidence);
  if (chance < least_chance_worth_naming) return;
  Advice& advice = scene.findings.advise(better_thermometer);
  advice.probability_decided = chance;
  tell(advice, "chance_percent", 100.0 * chance);
}

/// An insulation that was read and not proved: it is not run until it is. Of an electronic motor an ohmmeter tells all
/// that can be told: a leak that it found.
bool must_not_run(const Scene& scene) {
  if (scene.is_electronic()) return leaks_undecided(scene);
  return scene.findings.has(insulation, Outcome::undecided) &&
         any_of(scene.evidence, [](const PreparedReading& r) { return r.measurand == insulation_resistance; });
}

/// A low reading to the frame of which it was not said that the leads were off.
bool leaks_with_leads_on(const Scene& scene) {
  return any_of(scene.evidence, [&](const PreparedReading& r) {
    const double least = scene.ratings == nullptr ? 1e6 : scene.ratings->insulation.value();
    return r.measurand == insulation_resistance && !is_lead_off(r) && r.shown == Shown::value &&
           r.value.value() < least;
  });
}

/// The volts that its capacitor may be charged to: those read across it, else twice those of the line, since the
/// auxiliary winding raises them (common practice, no source).
std::optional<Voltage> volts_of_capacitor(const Scene& scene) {
  constexpr double raised = 2.0;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (const Estimate* across = reading.condition(capacitor_voltage)) return Voltage::from_value(across->value());
  if (scene.ratings == nullptr || !scene.ratings->voltage) return std::nullopt;
  return Voltage::from_value(raised * scene.ratings->voltage->value());
}

/// Whoever reads or changes the capacitor is told how long its charge lasts.
void advise_on_charge(const Scene& scene) {
  constexpr double resistor_ohms = 20e3;  // as the procedure names it
  constexpr double times_longer = 5.0;    // the resistor may be higher than it says, the clips may sit badly (ours)
  const PreparedReading* read = last_value(scene.evidence, capacitance);
  const std::optional<Voltage> across = volts_of_capacitor(scene);
  std::optional<Capacitance> farads;
  if (scene.ratings != nullptr) farads = scene.ratings->capacitance;
  if (!farads && read != nullptr) farads = Capacitance::from_value(read->value.value());
  if (!across || !farads) return;
  const Duration falls = discharge_time(Resistance::from_value(resistor_ohms), *farads, *across);
  Advice& advice = scene.findings.advise(discharge_first);
  tell(advice, "resistor", ohms(resistor_ohms));
  tell(advice, "hold", AnyQuantity(Dimension::duration, std::ceil(times_longer * falls.value())));
  tell(advice, "volts", AnyQuantity(*across));
  tell(advice, "farads", AnyQuantity(*farads));
  tell(advice, "falls", AnyQuantity(falls));
  tell(advice, "touchable", volts(most_touchable_volts));
}

void advise_on_the_rest(const Scene& scene) {
  if (scene.findings.has(turns_by_hand, Outcome::undecided)) scene.findings.advise(thaw_first);
  if (waits_for_its_capacitor(scene) && !scene.findings.has(capacitor, Outcome::undecided)) {
    advise_on_charge(scene);
    scene.findings.advise(read_its_capacitor);
  }
  if (scene.findings.has(capacitor, Outcome::undecided)) advise_on_charge(scene);
  if (is_to_be_read_alone(scene))
    scene.findings.advise(read_its_capacitor);
  else if (shows_past_its_range(scene))
    scene.findings.advise(capacitor_past_range);
  else if (scene.findings.has(capacitor, Outcome::undecided))
    scene.findings.advise(last_value(scene.evidence, capacitance) != nullptr ? better_clamp : say_frequency);
}

/// By a tester, with volts that prove something.
bool was_tested(const Scene& scene) {
  const InsulationRule asked{insulation, insulation_resistance, test_voltage};
  return any_of(scene.evidence, [&](const PreparedReading& r) {
    return r.measurand == insulation_resistance && !is_live(r) && by_insulation_tester(r, asked);
  });
}

void advise_no_test(const Scene& scene) {
  tell(scene.findings.advise(no_test_of_electronics), "least", ohms(scene.ratings->insulation.value()));
}

/// A leak that condemns may have been damp. What was dried before and leaks still is not dried again.
void advise_on_damp(const Scene& scene) {
  advise_if_it_was_wet(scene);
  if (!any_of(scene.evidence, [](const PreparedReading& r) {
        return r.measurand == insulation_resistance && r.moisture == Moisture::dry;
      }))
    scene.findings.advise(scene.is_electronic() ? dry_electronics : dry_and_repeat);
  if (scene.is_electronic()) advise_no_test(scene);
}

bool was_read_wet(const Scene& scene) {
  return any_of(scene.evidence, [](const PreparedReading& r) {
    return r.measurand == insulation_resistance && r.moisture == Moisture::wet;
  });
}

void advise_on_insulation(const Scene& scene) {
  if (!scene.findings.has(insulation, Outcome::undecided)) return;
  if (scene.is_electronic()) {
    if (leaks_only_when_wet(scene))
      scene.findings.advise(wet_electronics);
    else if (leaks_undecided(scene) && !leaks_with_leads_on(scene))
      scene.findings.advise(dry_electronics);
    if (leaks_with_leads_on(scene)) scene.findings.advise(lift_a_lead);
    if (leaks_with_leads_on(scene)) scene.findings.advise(in_place_of_leads_on);
    advise_no_test(scene);
    if (may_be_destroyed_by_its_test(scene)) scene.findings.advise(see_it_run_since);
    return;
  }
  if (leaks_only_when_wet(scene)) {
    advise_on_weak_wet_test(scene);
    scene.findings.advise(seal_or_renew);
    return;
  }
  if (!must_not_run(scene)) {
    scene.findings.advise(frame_too);
    return;
  }
  const bool wet = was_read_wet(scene);
  const bool leads_on = leaks_with_leads_on(scene);
  advise_on_weak_wet_test(scene);
  if (wet) scene.findings.advise(dry_and_repeat);
  if (leads_on) scene.findings.advise(lift_a_lead);
  if (!was_tested(scene))
    scene.findings.advise(insulation_tester);
  else if (!wet && !leads_on)
    scene.findings.advise(test_once_more);
  if (leads_on) scene.findings.advise(in_place_of_leads_on);
}

void advise_after_condemning(const Scene& scene) {
  if (scene.findings.has(insulation, Outcome::out_of_limits)) {
    scene.findings.advise(do_not_energise);
    if (!touches_frame(scene.findings, insulation)) advise_on_damp(scene);
  }
  const bool shows_over_range =
      any_of(scene.evidence, [](const PreparedReading& r) { return is_ohms(r) && shows_more_than_range(r); });
  if (scene.findings.has(open_winding, Outcome::out_of_limits) ||
      (scene.findings.has(in_circuit, Outcome::out_of_limits) && shows_over_range))
    scene.findings.advise(touch_the_probes);
  if (scene.findings.has(open_winding, Outcome::out_of_limits)) scene.findings.advise(cool_before_buying);
  if (scene.findings.has(in_circuit, Outcome::out_of_limits)) scene.findings.advise(lift_a_lead);
  advise_on_own_heat(scene);
  const bool only_capacitor =
      std::none_of(scene.findings.findings().begin(), scene.findings.findings().end(),
                   [](const Finding& f) { return f.outcome == Outcome::out_of_limits && f.rule != capacitor; });
  if (only_capacitor) {
    advise_on_insulation(scene);
    advise_on_charge(scene);
    scene.findings.advise(fit_capacitor);
    return;
  }
  scene.findings.advise(before_buying);
  scene.findings.advise(replacement);
}

/// Of what was read: the gap that three windings leave is a difference, and no display showed it.
std::optional<DecimalSlip> slip_of(const Scene& scene) {
  for (const Finding& finding : scene.findings.findings()) {
    if (finding.rule == windings_add_up) continue;
    if (const std::optional<DecimalSlip> slip = decimal_slip({&finding, 1})) return slip;
  }
  return std::nullopt;
}

}  // namespace

void advise(const Scene& scene) {
  if (scene.plug.are_far_too_high())
    scene.findings.advise(has_mains_on_low_voltage(scene) ? cut_the_supply : unplug_it_now);
  if (std::optional<DecimalSlip> slip = slip_of(scene)) {
    const PreparedReading* read = last_value(scene.evidence, winding);
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
  advise_on_ohms(scene);
  advise_on_winding(scene);
  advise_on_insulation(scene);  // before anything that lets it run
  if (!must_not_run(scene) && !scene.plug.are_far_too_high()) advise_on_running(scene);
  advise_on_the_rest(scene);
  if (scene.ratings == nullptr) scene.findings.advise(say_ratings);
  if (!scene.findings.advice().empty() || !scene.findings.has(running, Outcome::within_limits)) return;
  if (scene.plug.are_low())
    scene.findings.advise(scene.is_electronic() ? read_pulsed_supply : look_upstream);
  else
    scene.findings.advise(leave_it_in);
}

}  // namespace ohmwright::fan_motor
