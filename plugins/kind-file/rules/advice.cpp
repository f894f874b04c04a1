#include "rules/advice.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <ohmwright/component/shared_thresholds.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>
#include <ohmwright/verdict/what_would_decide.hpp>

#include "rules/standard_advice.hpp"

namespace ohmwright::kind_file {

namespace {

/// What makes this share of the doubt is worth an advice of its own.
constexpr double much_of_the_doubt = 0.25;
/// What makes less than this share of the doubt is not worth naming.
constexpr double little_of_the_doubt = 0.05;
/// Accuracy of the better meter that advice speaks of, a good bench or hand-held one.
constexpr double better_meter_share = 0.003;

/// Whole percent: advice is no place for digits. Never "100 %", which nobody can promise.
double whole_percent(double share) { return std::min(99.0, std::round(100.0 * share)); }

void advise_once(const Scene& scene, TextIndex text) {
  const auto& given = scene.findings.advice();
  if (std::none_of(given.begin(), given.end(), [text](const Advice& advice) { return advice.text == text; }))
    scene.findings.advise(text);
}

void advise_once(const Scene& scene, StandardAdvice advice) { advise_once(scene, static_cast<TextIndex>(advice)); }

void advise_with_chance(const Scene& scene, TextIndex text, double chance, double share) {
  if (chance < least_chance_worth_naming || share < little_of_the_doubt) return;
  Advice& advice = scene.findings.advise(text);
  advice.probability_decided = chance;
  advice.arguments.push_back({name_of(Field::share_percent), whole_percent(share)});
  advice.arguments.push_back({name_of(Field::chance_percent), whole_percent(chance)});
}

/// What the circumstances of the readings lack, by what a rule on limits said.
void advise_on_circumstances(const Scene& scene, LimitsText said) {
  switch (said) {
    case LimitsText::in_circuit:
    case LimitsText::connection_unstated:
      return advise_once(scene, StandardAdvice::lift_a_lead);
    case LimitsText::readings_disagree:
      return advise_once(scene, StandardAdvice::read_again);
    case LimitsText::range_too_low:
    case LimitsText::range_unknown:
      return advise_once(scene, StandardAdvice::higher_range);
    case LimitsText::no_figure:
      return advise_once(scene, StandardAdvice::say_ratings);
    case LimitsText::wet:
      return advise_once(scene, StandardAdvice::dry_it);
    case LimitsText::live:
      return advise_once(scene, StandardAdvice::read_unplugged);
    case LimitsText::needs_tester:
      return advise_once(scene, StandardAdvice::prove_insulation);
    default:
      return;
  }
}

void advise_on_insulation(const Scene& scene, TextIndex said) {
  switch (said) {
    case InsulationText::leaks_while_wet:
      return advise_once(scene, StandardAdvice::dry_it);
    case InsulationText::leaks_connection_unstated:
    case InsulationText::leaks_lead_off_of_another:
    case InsulationText::leaks_in_circuit:
      return advise_once(scene, StandardAdvice::lift_a_lead);
    case InsulationText::tester_more_than:
      return advise_once(scene, StandardAdvice::higher_range);
    case InsulationText::not_told_apart:
    case InsulationText::repeats_differ:
      return advise_once(scene, StandardAdvice::read_again);
    case InsulationText::ohmmeter_is_no_tester:
    case InsulationText::ohmmeter_past_range:
    case InsulationText::ohmmeter_more_than:
    case InsulationText::few_volts:
    case InsulationText::few_volts_past_range:
    case InsulationText::leaks_at_more_volts:
    case static_cast<TextIndex>(OwnInsulationText::still_to_read):
      return advise_once(scene, StandardAdvice::prove_insulation);
    case static_cast<TextIndex>(OwnInsulationText::no_figure):
      return advise_once(scene, StandardAdvice::say_ratings);
    case InsulationText::only_live:
      return advise_once(scene, StandardAdvice::read_unplugged);
    default:
      return;
  }
}

void advise_on_circumstances(const Scene& scene, ContactText said) {
  switch (said) {
    case ContactText::in_circuit:
    case ContactText::connection_unstated:
      return advise_once(scene, StandardAdvice::lift_a_lead);
    case ContactText::open_in_circuit:
      return advise_once(scene, StandardAdvice::prove_dead);
    case ContactText::range_too_low:
      return advise_once(scene, StandardAdvice::higher_range);
    case ContactText::no_figure:
      return advise_once(scene, StandardAdvice::say_ratings);
    case ContactText::poor:
    case ContactText::comes_and_goes:
      return advise_once(scene, StandardAdvice::read_again);
    case ContactText::live:
      return advise_once(scene, StandardAdvice::read_unplugged);
    default:
      return;
  }
}

/// Variances of a judged value by what they come from.
struct Variances {
  double condition = 0.0;
  double meter = 0.0;
  double scatter = 0.0;
  double other_conditions = 0.0;
  double sum() const { return condition + meter + scatter + other_conditions; }
  double beside_meter() const { return condition + scatter + other_conditions; }
};

Variances variances_of(const Scene& scene, const Estimate& judged, const Movement& movement) {
  const auto& conditions = scene.definition.descriptor.conditions;
  const std::string_view told = movement.moves() ? conditions[movement.condition()].id : std::string_view();
  Variances found;
  for (const Term& term : judged.terms()) {
    const double variance = term.standard_uncertainty * term.standard_uncertainty;
    const std::string& source = scene.evidence.sources()[term.source].id;
    if (!told.empty() && source == told)
      found.condition += variance;
    else if (index_of(conditions, source) != not_found)
      found.other_conditions += variance;
    else if (source == "repeatability")
      found.scatter += variance;
    else
      found.meter += variance;
  }
  return found;
}

/// Half-width of that condition as it was given with the first reading of the rule that has it [SI]; 0 without one.
double half_width_given(const Scene& scene, const RuleForm& form, std::uint16_t condition) {
  for (const PreparedReading& reading : scene.evidence.readings()) {
    const Estimate* given = reading.measurand == form.measurand ? reading.condition(condition) : nullptr;
    if (given != nullptr) return std::numbers::sqrt3 * given->standard_uncertainty();
  }
  return 0.0;
}

/// What would decide a value that is too close to a limit to tell.
void advise_on_doubt(const Scene& scene, const LimitedEstimate& judged, const RuleForm& form) {
  const std::uint16_t condition = form.limits()->movement.condition();
  const bool moves = form.limits()->movement.moves();
  const Variances v = variances_of(scene, judged.estimate, form.limits()->movement);
  if (!(v.sum() > 0.0)) return;
  if (v.scatter >= much_of_the_doubt * v.sum()) {  // no meter and no thermometer mends a contact that jumps
    advise_once(scene, StandardAdvice::read_again);
    return;
  }
  const auto chance_of = [&](NextReading next) {
    return probability_of_decision(judged.estimate, judged.lower, judged.upper, next, scene.settings.confidence);
  };
  const BetterCondition better = moves ? scene.definition.better[condition] : BetterCondition{};
  const double given = moves ? half_width_given(scene, form, condition) : 0.0;
  if (better.half_width > 0.0 && better.half_width < given) {
    const double shrunk = better.half_width / given;
    const double of_condition = v.condition * shrunk * shrunk;
    advise_with_chance(scene, better.advice, chance_of({std::sqrt(v.meter + v.other_conditions + of_condition)}),
                       v.condition / v.sum());
  }
  const double share = better_meter_share * judged.estimate.value();
  const double of_meter = std::min(v.meter, share * share / 3.0);
  advise_with_chance(scene, static_cast<TextIndex>(StandardAdvice::better_meter),
                     chance_of({std::sqrt(v.beside_meter() + of_meter), std::sqrt(v.condition + v.other_conditions)}),
                     v.meter / v.sum());
}

void advise_on(const Scene& scene, const Finding& finding) {
  const RuleForm& form = scene.definition.rules[finding.rule];
  const std::uint8_t said = form.texts.said_by_index[finding.text];
  if (form.insulation() != nullptr) {
    advise_on_insulation(scene, said);
    return;
  }
  if (form.limits() == nullptr) {
    advise_on_circumstances(scene, static_cast<ContactText>(said));
    return;
  }
  const auto text = static_cast<LimitsText>(said);
  if (text != LimitsText::needs_tester || scene.known[finding.rule].lower >= insulation_from_ohms)
    advise_on_circumstances(scene, text);
  if (finding.outcome == Outcome::undecided && finding.judged)
    advise_on_doubt(scene, {*finding.judged, finding.judged_lower, finding.judged_upper}, form);
}

/// Whether an advice of the file follows from what its rule said and found.
bool is_meant(const AdviceTrigger& trigger, const Finding& finding) {
  if (trigger.only_undecided && finding.outcome != Outcome::undecided) return false;
  return !trigger.text || *trigger.text == finding.text;
}

}  // namespace

void advise(const Scene& scene) {
  const auto& findings = scene.findings.findings();
  const bool condemned = std::any_of(findings.begin(), findings.end(),
                                     [](const Finding& finding) { return finding.outcome == Outcome::out_of_limits; });
  for (const Finding& finding : findings) {
    if (!condemned) advise_on(scene, finding);
    for (const AdviceTrigger& trigger : scene.definition.triggers)
      if (trigger.rule == finding.rule && is_meant(trigger, finding)) advise_once(scene, trigger.advice);
  }
}

}  // namespace ohmwright::kind_file
