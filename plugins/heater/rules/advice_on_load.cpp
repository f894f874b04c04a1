#include "rules/advice_on_load.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/component/shared_thresholds.hpp>
#include <ohmwright/verdict/what_would_decide.hpp>

namespace ohmwright::heater {

namespace {

/// A good bench meter on this element: 0.3 % and 0.1 ohm, leads zeroed (generic class, common practice, no source).
double chance_of_better_meter(const Scene& scene) {
  const ColdOhms& cold = *scene.cold;
  const double u = (0.003 * cold.ohms.value() + 0.1) / std::numbers::sqrt3;
  return probability_of_decision(cold.ohms, cold.limits.lower, cold.limits.upper, {u, 0.0}, scene.settings.confidence);
}

/// Nothing is heated until its insulation is known to be within its limits: read by a tester, not by an ohmmeter.
bool may_be_heated(const Scene& scene) { return scene.findings.has(insulation, Outcome::within_limits); }

/// What Why names as the step that decides, said once its insulation has passed.
std::optional<AdviceIndex> once_insulated(AdviceIndex what) {
  if (what == volts_at_element) return then_volts_at_element;
  return what == volts_and_amperes_at_element ? std::optional(then_volts_and_amperes) : std::nullopt;
}

/// The test of its insulation; it takes the place of the advice to read it to the frame.
void advise_to_test(const Scene& scene) {
  for (const AdviceIndex test : {insulation_tester, test_once_more, both_leads_off, dry_and_repeat})
    if (scene.findings.advised(test)) return;
  auto& all = scene.findings.advice();
  const auto at = std::find_if(all.begin(), all.end(), [](const Advice& one) { return one.text == frame_too; });
  if (at != all.end())
    at->text = insulation_tester;
  else
    scene.findings.advise(insulation_tester);
}

}  // namespace

void advise_to_heat(const Scene& scene, AdviceIndex what) {
  if (scene.far_too_many_volt > 0.0) return;
  if (may_be_heated(scene)) {
    scene.findings.advise(what);
    return;
  }
  advise_to_test(scene);
  if (const std::optional<AdviceIndex> later = once_insulated(what)) scene.findings.advise(*later);
}

bool is_intact(const Scene& scene) {
  return scene.cold && !scene.readings_disagree() && scene.jumping <= 0.0 &&
         scene.cold->outcome == Outcome::within_limits;
}

void advise_on_witness(const Scene& scene) {
  const bool load_jumps = any_of(
      scene.evidence, [&](const PreparedReading& r) { return is_under_load(r) && repeats_jump(scene.evidence, r); });
  const bool contradiction = scene.witness == Witness::contradiction;
  if (contradiction && !may_be_heated(scene)) scene.findings.advise(read_cold);
  if (contradiction || load_jumps) advise_to_heat(scene, read_both_again);
  if (!scene.load || scene.load->far_from_rated) {
    if (scene.load && scene.far_too_many_volt <= 0.0) scene.findings.advise(find_the_volts);
    return;
  }
  const Load& load = *scene.load;
  const bool good_cold =
      scene.findings.has(element_resistance, Outcome::within_limits) && scene.witness == Witness::cold;
  const bool more_than_cold_ohms = good_cold && load.too_much() && load.outcome == Outcome::out_of_limits;
  if (load.others_may_draw() || more_than_cold_ohms) advise_to_heat(scene, clamp_alone);
}

void advise_on_lost_volts(const Scene& scene) {
  constexpr double share_of_good_wiring = 0.05;  // of the supply (common practice, no source)
  if (!scene.load || !scene.load->at_element) return;
  const Load& load = *scene.load;
  const Estimate* line = load.reading->condition(line_voltage);
  if (line == nullptr) return;
  const double lost = line->value() - load.line_volt;
  if (lost < share_of_good_wiring * line->value() || lost < 2.0 * line->standard_uncertainty()) return;
  const double drawn = load.reading->value.value();
  const double amperes_drawn = load.reading->measurand == current ? drawn : drawn / load.line_volt;
  Advice& advice = scene.findings.advise(find_the_joint);
  tell(advice, "lost", volts(lost));
  tell(advice, "heat", watts(lost * amperes_drawn));
}

void advise_on_near_end(const Scene& scene) {
  if (!scene.cold || scene.readings_disagree() || scene.jumping > 0.0 ||
      !scene.findings.has(element_resistance, Outcome::undecided))
    return;
  if (scene.witness == Witness::contradiction) return;
  if (!scene.cold->stated_off && scene.cold->ohms.value() < scene.cold->limits.lower) return;  // a lead to lift first
  if (scene.cold->read_at && *scene.cold->read_at > Temperature::from_celsius(20.0).kelvin())
    scene.findings.advise(let_it_cool);
  if (scene.ratings->knows_power() && !scene.load) advise_to_heat(scene, clamp_under_load);
  const double chance = chance_of_better_meter(scene);
  if (chance < least_chance_worth_naming) return;
  Advice& advice = scene.findings.advise(better_meter);
  advice.probability_decided = chance;
  tell(advice, "chance_percent", 100.0 * chance);
}

void advise_on_load(const Scene& scene) {
  if (scene.far_too_many_volt > 0.0) return;  // nothing is read on it before the supply is right
  const auto under_load_without_line = [](const PreparedReading& r) {
    return is_under_load(r) && r.condition(line_voltage) == nullptr;
  };
  const bool told_by_terminals = last_live_value(scene.evidence, terminal_voltage) != nullptr;
  const bool too_much = scene.load && scene.load->too_much();
  const bool load_jumps = any_of(
      scene.evidence, [&](const PreparedReading& r) { return is_under_load(r) && repeats_jump(scene.evidence, r); });
  for (const Finding& finding : scene.findings.findings())
    if (finding.rule == power_under_load && finding.holds_back && !told_by_terminals && !too_much && !load_jumps) {
      if (!finding.measured && is_intact(scene)) {  // no current, and it would draw: something before it is open
        scene.findings.advise(look_upstream);
        break;
      }
      advise_to_heat(scene, finding.measured ? volts_and_amperes_at_element : volts_at_element);
      break;
    }
  if (scene.ratings != nullptr && !told_by_terminals && any_of(scene.evidence, under_load_without_line))
    scene.findings.advise(say_line_voltage);
  if (!scene.findings.has(supply_without_current, Outcome::undecided)) return;
  if (contradicting_volts(scene.evidence)) {
    scene.findings.advise(leave_out_stale_volts);
    return;
  }
  if (last_live_value(scene.evidence, current) == nullptr)
    advise_to_heat(scene, clamp_with_volts);
  else if (any_of(scene.evidence,
                  [&](const PreparedReading& r) {
                    return r.measurand == current && r.value.value() < no_current_below(scene.ratings);
                  }) &&
           !scene.findings.advised(look_upstream))
    scene.findings.advise(look_upstream);
}

}  // namespace ohmwright::heater
