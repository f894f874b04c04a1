#include "rules/contact_drop.hpp"

#include <limits>

namespace ohmwright::defrost_control {

namespace {

enum Text : TextIndex {
  small_drop,
  large_drop,
  solid_state_small,
  solid_state_large,
  not_told_apart,
  no_load,
  no_drop,
  no_current,
  no_limit,
  not_live
};

constexpr double infinity = std::numeric_limits<double>::infinity();

std::optional<Text> why_not_judged(const Scene& scene, const PreparedReading* reading) {
  if (reading == nullptr) return no_drop;
  if (!is_live(*reading)) return not_live;
  if (reading->condition(load_current) == nullptr) return no_current;
  if (scene.ratings == nullptr) return no_limit;
  return std::nullopt;
}

/// Volts less what a good switch may drop at that current [V]: above 0 it is too bad.
Estimate excess_of(const ControlRatings& ratings, const PreparedReading& drop, const Estimate& current) {
  Estimate excess = drop.value;
  if (ratings.switching == Switching::contact)
    excess.add_scaled(current, -ratings.contact_resistance.value());
  else
    excess.shift(-ratings.solid_state_drop.value());
  return excess;
}

void judge_loaded(const Scene& scene, const PreparedReading& reading) {
  const Estimate& current = *reading.condition(load_current);
  const bool solid_state = scene.ratings->switching == Switching::solid_state;
  const Estimate excess = excess_of(*scene.ratings, reading, current);
  const Conformance p = conformance_of(excess, scene.evidence.sources(), -infinity, 0.0);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = not_told_apart;
  if (outcome == Outcome::within_limits) text = solid_state ? solid_state_small : small_drop;
  if (outcome == Outcome::out_of_limits) text = solid_state ? solid_state_large : large_drop;
  Finding& finding = scene.findings.add(contact_drop, outcome, text);
  put_judged(finding, excess, -infinity, 0.0, Dimension::voltage, p);
  finding.measured = volts(reading.value.value());
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  finding.limits.upper = volts(reading.value.value() - excess.value());
  tell(finding, "drop", *finding.measured);
  tell(finding, "allowed", *finding.limits.upper);
  tell(finding, "current", amperes(current.value()));
  tell(finding, "resistance", ohms(reading.value.value() / current.value()));
  tell(finding, "limit", ohms(scene.ratings->contact_resistance.value()));
  tell(finding, "heat", watts(reading.value.value() * current.value()));
}

}  // namespace

bool drops_little(const Scene& scene) {
  const PreparedReading* reading = last_value(scene.evidence, voltage_drop);
  if (why_not_judged(scene, reading) || !is_loaded(*reading, scene.evidence.sources(), scene.settings.confidence))
    return false;
  const Estimate excess = excess_of(*scene.ratings, *reading, *reading->condition(load_current));
  return decide(conformance_of(excess, scene.evidence.sources(), -infinity, 0.0), scene.settings.confidence) ==
         Outcome::within_limits;
}

RuleDescriptor describe_drop() {
  return {
      "contact-drop",
      OHMWRIGHT_TEXT("Voltage drop of the closed contact under load"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "Ohm and Joule: drop I*r, heat I^2*r; the limit as the ratings state it",
      {
          {"small-drop",
           OHMWRIGHT_TEXT("At {current} its contact drops {drop}, so it has {resistance}; a good one drops "
                          "{allowed} at most.")},
          {"large-drop",
           OHMWRIGHT_TEXT("At {current} its contact drops {drop}; a good one drops {allowed} at most ({resistance}, "
                          "where {limit} is allowed). That burns {heat} inside the control: the contact, or a joint "
                          "between the probes, is bad.")},
          {"solid-state-small",
           OHMWRIGHT_TEXT("At {current} its solid-state switch drops {drop}; a good one drops {allowed} at most.")},
          {"solid-state-large",
           OHMWRIGHT_TEXT("At {current} its solid-state switch drops {drop}; a good one drops {allowed} at most. That "
                          "burns {heat} on the board: the switch, or a joint between the probes, is bad.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT("At {current} it drops {drop}; a good one drops {allowed} at most. Too near "
                          "to tell apart with these instruments.")},
          {"no-load",
           OHMWRIGHT_TEXT("{drop} across it, but no current worth the name ran ({current}): either it is not "
                          "switched on, or its load is open. This says nothing of the contact.")},
          {"no-drop", OHMWRIGHT_TEXT("Not judged: no drop under load was read.")},
          {"no-current", OHMWRIGHT_TEXT("Not judged: the current that ran was not given (--load).")},
          {"no-limit", OHMWRIGHT_TEXT("Not judged: nothing is known of this control.")},
          {"not-live", OHMWRIGHT_TEXT("Not judged: a drop is only there while current runs (--live-agreed).")},
      }};
}

void judge_drop(const Scene& scene) {
  const PreparedReading* reading = last_value(scene.evidence, voltage_drop);
  if (const std::optional<Text> silence = why_not_judged(scene, reading)) {
    scene.findings.add(contact_drop, Outcome::silent, *silence);
  } else if (!is_loaded(*reading, scene.evidence.sources(), scene.settings.confidence)) {
    Finding& finding = scene.findings.add(contact_drop, Outcome::undecided, no_load);
    tell(finding, "drop", volts(reading->value.value()));
    tell(finding, "current", amperes(reading->condition(load_current)->value()));
  } else {
    judge_loaded(scene, *reading);
  }
}

}  // namespace ohmwright::defrost_control
