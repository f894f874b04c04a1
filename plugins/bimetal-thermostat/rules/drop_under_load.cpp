#include "rules/drop_under_load.hpp"

#include <cmath>
#include <limits>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex {
  small_drop,
  large_drop,
  not_told_apart,
  open_under_supply,
  no_drop,
  no_current,
  no_limit,
  not_live,
  open_by_its_volts,
  large_drop_where_open,
  nothing_feeds_it,
  open_while_cold,
};

/// Below this a heater does not run: the contact is open, or something else is (common practice, no source) [A].
constexpr double least_load_ampere = 0.05;

// A closed contact that takes as much as a mains of 100 V, or that turns into heat what its housing does not stand for
// a minute, was none: volts and amperes are of two moments (common practice, no source).
constexpr double most_of_a_mains_volts = 80.0;
constexpr double most_survived_watts = 150.0;

bool contradicts_its_current(const PreparedReading& drop, const Estimate& current) {
  const double volts = std::abs(drop.value.value());
  return volts > most_of_a_mains_volts || volts * current.value() > most_survived_watts;
}

/// Whether every good one is open there: whatever it drops then, it does not condemn the contact.
bool is_where_it_opens(const Scene& scene, const PreparedReading& drop) {
  const Estimate* temperature = drop.condition(part_temperature);
  return temperature != nullptr && temperature->value() > scene.ratings->opening.highest().kelvin();
}

/// Whether every good one is closed there.
bool is_where_it_is_closed(const Scene& scene, const PreparedReading& drop) {
  const Estimate* temperature = drop.condition(part_temperature);
  return temperature != nullptr && scene.ratings != nullptr &&
         temperature->value() < scene.ratings->closing.lowest().kelvin();
}

/// Without a current, and with no more volts than a closed contact may drop, nothing feeds it (common practice, no
/// source) [V].
constexpr double least_of_a_supply_volts = 2.0;

/// No current flows: what the volts across it say then.
void say_without_current(const Scene& scene, const PreparedReading& reading) {
  Text text = is_where_it_is_closed(scene, reading) ? open_while_cold : open_under_supply;
  if (std::abs(reading.value.value()) < least_of_a_supply_volts) text = nothing_feeds_it;
  Finding& finding = scene.findings.add(drop_under_load, Outcome::undecided, text);
  tell(finding, "drop", AnyQuantity(Dimension::voltage, reading.value.value()));
  if (text != open_while_cold) return;
  tell(finding, "temperature", degrees(reading.condition(part_temperature)->value()));
  tell(finding, "closes_by", AnyQuantity(scene.ratings->closing.lowest()));
}

/// Volts less what the largest allowed resistance would drop at that current [V]: above 0 the contact is too bad.
Estimate excess_of(const PreparedReading& drop, const Estimate& current, double limit_ohms) {
  Estimate excess;
  excess.add_scaled(drop.value, drop.value.value() < 0.0 ? -1.0 : 1.0);  // a minus is no more than swapped probes
  excess.add_scaled(current, -limit_ohms);
  return excess;
}

const PreparedReading* drop_reading(const Scene& scene) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (reading.measurand == voltage_drop && reading.shown == Shown::value) last = &reading;
  return last;
}

std::optional<Text> why_not_judged(const Scene& scene, const PreparedReading* reading) {
  if (reading == nullptr) return no_drop;
  if (!is_live(*reading)) return not_live;
  if (reading->condition(load_current) == nullptr) return no_current;
  if (scene.ratings == nullptr || !scene.ratings->contact_resistance) return no_limit;
  return std::nullopt;
}

void judge_drop(const Scene& scene, const PreparedReading& reading) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const Estimate& current = *reading.condition(load_current);
  const double limit = scene.ratings->contact_resistance->value();
  const Estimate excess = excess_of(reading, current, limit);
  const Conformance p = conformance_of(excess, scene.evidence.sources(), -infinity, 0.0);
  Outcome outcome = decide(p, scene.settings.confidence);
  Text text = not_told_apart;
  if (outcome == Outcome::within_limits) text = small_drop;
  if (outcome == Outcome::out_of_limits) text = large_drop;
  if (text == large_drop && is_where_it_opens(scene, reading)) text = large_drop_where_open;
  if (text == large_drop && contradicts_its_current(reading, current)) text = open_by_its_volts;
  if (outcome == Outcome::out_of_limits && text != large_drop) outcome = Outcome::undecided;
  Finding& finding = scene.findings.add(drop_under_load, outcome, text);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  const double drop = std::abs(reading.value.value());
  finding.measured = AnyQuantity(Dimension::voltage, drop);
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  finding.limits.upper = AnyQuantity(Dimension::voltage, limit * current.value());
  if (text != open_by_its_volts && text != large_drop_where_open) {
    finding.judged = excess;
    finding.judged_lower = -infinity;
    finding.judged_upper = 0.0;
  }
  tell(finding, "drop", *finding.measured);
  tell(finding, "allowed", *finding.limits.upper);
  tell(finding, "current", AnyQuantity(Dimension::current, current.value()));
  tell(finding, "resistance", ohms(drop / current.value()));
  tell(finding, "limit", ohms(limit));
  tell(finding, "heat", AnyQuantity(Dimension::power, drop * current.value()));
}

}  // namespace

RuleDescriptor describe_drop_under_load() {
  return {
      "voltage-drop",
      OHMWRIGHT_TEXT("Voltage drop under load"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "Ohm and Joule: drop I*r, heat I^2*r; the limit as the ratings state the contact resistance",
      {
          {"small-drop",
           OHMWRIGHT_TEXT("At {current} the closed contact drops {drop}, so it has {resistance}; a good one drops at "
                          "most {allowed}.")},
          {"large-drop",
           OHMWRIGHT_TEXT(
               "At {current} the closed contact drops {drop}; a good one drops at most {allowed} ({resistance}, "
               "where {limit} is allowed). That burns {heat} inside the part: the contact, or a joint "
               "between the probes, is bad.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT("At {current} the closed contact drops {drop}; a good one drops at most {allowed}. Too near "
                          "to tell apart with these instruments.")},
          {"open-under-supply",
           OHMWRIGHT_TEXT(
               "It drops {drop} and no current flows: it is open there, or the circuit is open elsewhere and "
               "the meter shows a ghost. In a warm part that is normal.")},
          {"no-drop", OHMWRIGHT_TEXT("Not judged: the voltage across it was not read while its load ran.")},
          {"no-current", OHMWRIGHT_TEXT("A drop means nothing without the current that made it (--load).")},
          {"no-limit", OHMWRIGHT_TEXT("Not judged: the ratings state no contact resistance.")},
          {"not-live",
           OHMWRIGHT_TEXT("Not judged: the drop has to be read while the load runs, and these volts were read dead.")},
          {"open-by-its-volts",
           OHMWRIGHT_TEXT(
               "{drop} across it and {current} through it contradict each other: a contact that turned {heat} into "
               "heat would not last. It was open (in a warm part that is normal), and the amperes flowed elsewhere or "
               "at another moment.")},
          {"large-drop-where-open",
           OHMWRIGHT_TEXT(
               "{drop} across it at {current}, but so warm a good one is open or about to open, so that condemns no "
               "contact. Read it while the coil is cold enough to keep it closed.")},
          {"nothing-feeds-it",
           OHMWRIGHT_TEXT("It drops {drop} and no current flows: nothing feeds it there, with the control not in "
                          "defrost, a plug off or an open before it, or its load is open. That says nothing of the "
                          "contact.")},
          {"open-while-cold",
           OHMWRIGHT_TEXT(
               "It drops {drop} and no current flows: it is open there, or the circuit is open elsewhere and "
               "the meter shows a ghost. At {temperature} a good one is closed (from {closes_by} down).")},
      }};
}

void judge_drop_under_load(const Scene& scene) {
  const PreparedReading* reading = drop_reading(scene);
  if (const std::optional<Text> silence = why_not_judged(scene, reading)) {
    const Outcome outcome = *silence == no_current ? Outcome::undecided : Outcome::silent;
    scene.findings.add(drop_under_load, outcome, *silence);
    return;
  }
  const Estimate& current = *reading->condition(load_current);
  if (current.value() > std::max(least_load_ampere, 2.0 * current.standard_uncertainty())) {
    judge_drop(scene, *reading);
    return;
  }
  say_without_current(scene, *reading);
}

}  // namespace ohmwright::bimetal_thermostat
