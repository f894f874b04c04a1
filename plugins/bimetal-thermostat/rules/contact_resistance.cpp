#include "rules/contact_resistance.hpp"

#include <cmath>
#include <limits>

#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex {
  low_enough,
  nothing_beyond_leads,
  too_coarse,
  too_high,
  not_closed,
  jumping,
  connection_unstated,
  no_ohms,
  no_limit,
  too_high_though_clean,
};

/// Ohms of the contact while it conducts, the highest of several; null where there are none.
const PreparedReading* worst_closed(const Scene& scene) {
  const PreparedReading* worst = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    const ContactSeen seen = contact_seen(reading);
    const bool conducts = seen == ContactSeen::closed || seen == ContactSeen::poor;
    if (!is_of_contact_alone(reading) || reading.shown != Shown::value || !conducts) continue;
    if (worst == nullptr || reading.value.value() > worst->value.value()) worst = &reading;
  }
  return worst;
}

/// Nothing but the contact itself is left to explain such ohms: its terminals were cleaned, a lead is off, and it is
/// colder than any good one closes.
bool is_surely_bad(const Scene& scene, const PreparedReading& reading) {
  const Estimate* temperature = reading.condition(part_temperature);
  if (temperature == nullptr || reading.state(terminals) != terminals_cleaned || !is_lead_off(reading)) return false;
  const bool is_cold =
      temperature->value() + 2.0 * temperature->standard_uncertainty() < scene.ratings->closing.lowest().kelvin();
  return is_cold && reading.value.value() - 2.0 * reading.value.standard_uncertainty() > most_ohms_under_load;
}

}  // namespace

RuleDescriptor describe_contact_resistance() {
  return {
      "contact-resistance",
      OHMWRIGHT_TEXT("Ohms of the closed contact"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "JCGM 106:2012 (conformance probability); that ohms condemn a contact only at clean terminals is common "
      "practice, no source",
      {
          {"low-enough",
           OHMWRIGHT_TEXT("The closed contact reads {ohms} with the test leads taken off; a good one has at most "
                          "{limit}.")},
          {"nothing-beyond-leads",
           OHMWRIGHT_TEXT("The closed contact reads no more than the test leads themselves; a good one has at most "
                          "{limit}.")},
          {"too-coarse",
           OHMWRIGHT_TEXT("The closed contact reads {ohms} ± {doubt} with the test leads taken off; a good one has at "
                          "most {limit}. This meter cannot tell that apart.")},
          {"too-high",
           OHMWRIGHT_TEXT("The closed contact reads {ohms} with the test leads taken off; a good one has at most "
                          "{limit}. An ohmmeter alone does not condemn it: its small current does not break a film.")},
          {"not-closed",
           OHMWRIGHT_TEXT("A closed contact has at most {limit}, so one that reads {ohms} is not closed, or something "
                          "beside it was read.")},
          {"jumping",
           OHMWRIGHT_TEXT(
               "The repeated ohms of the contact jump by about {scatter_percent} %, so their mean says nothing: "
               "it comes and goes, at the probes or in the contact.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("The contact reads {ohms}, within {limit}, but it was not said that a lead was off.")},
          {"no-ohms", OHMWRIGHT_TEXT("Not judged: the closed contact was not read in ohms.")},
          {"no-limit", OHMWRIGHT_TEXT("Not judged: the ratings state no contact resistance.")},
          {"too-high-though-clean",
           OHMWRIGHT_TEXT(
               "Its terminals clean, and so cold that it has to be closed, it still reads {ohms}; a good one "
               "has at most {limit}. At the amperes of a heater such a contact burns in its housing.")},
      }};
}

void judge_contact_resistance(const Scene& scene) {
  const PreparedReading* reading = worst_closed(scene);
  const bool rated = scene.ratings != nullptr && scene.ratings->contact_resistance;
  if (reading == nullptr || !rated) {
    scene.findings.add(contact_resistance, Outcome::silent, reading == nullptr ? no_ohms : no_limit);
    return;
  }
  const double limit = scene.ratings->contact_resistance->value();
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const double within = probability_between(reading->value, scene.evidence.sources(), -infinity, limit);
  Outcome outcome = scene.sure(within) ? Outcome::within_limits : Outcome::undecided;
  Text text = too_coarse;
  if (outcome == Outcome::within_limits) text = reading->value.value() > 0.0 ? low_enough : nothing_beyond_leads;
  if (scene.sure(1.0 - within)) text = contact_seen(*reading) == ContactSeen::poor ? not_closed : too_high;
  if (outcome == Outcome::within_limits && !scene.is_surely_of_contact(*reading)) {
    outcome = Outcome::undecided;
    text = connection_unstated;
  }
  if (scene.sure(1.0 - within) && is_surely_bad(scene, *reading)) {
    outcome = Outcome::out_of_limits;
    text = too_high_though_clean;
  }
  if (text == too_coarse && repeats_jump_past_digits(scene.evidence, *reading)) text = jumping;
  const bool carries = scene.findings.has(drop_under_load, Outcome::within_limits);
  Finding& finding = scene.findings.add(contact_resistance, outcome, text);
  finding.holds_back = text == too_high && !carries;  // run under load such a contact burns
  finding.measured = ohms(reading->value.value());
  finding.measured_uncertainty = reading->value.standard_uncertainty();
  finding.limits.upper = ohms(limit);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = within;
  tell(finding, "ohms", *finding.measured);
  tell(finding, "doubt", ohms(2.0 * *finding.measured_uncertainty));
  tell(finding, "limit", *finding.limits.upper);
  if (text == jumping) tell(finding, "scatter_percent", std::round(100.0 * relative_scatter(scene.evidence, *reading)));
}

}  // namespace ohmwright::bimetal_thermostat
