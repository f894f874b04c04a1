#include "rules/element_resistance.hpp"

#include <cmath>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  cold_within,
  cold_low,
  cold_high,
  cold_one_of_two,
  cold_unsure,
  low_connection_unstated,
  connection_unstated,
  by_load_within,
  by_load_high,
  by_load_low,
  by_load_unsure,
  disagreeing,
  no_ratings,
  no_reading,
  only_in_circuit,
  only_live,
};

/// How far twice the limits of the pair may be missed by an element that is left alone.
constexpr double doubled_slack = 0.03;

Text why_silent(const Scene& scene) {
  if (scene.ratings == nullptr) return no_ratings;
  Text text = no_reading;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || reading.shown != Shown::value) continue;
    if (is_live(reading))
      text = only_live;
    else if (is_in_circuit(reading))
      text = only_in_circuit;
  }
  return text;
}

bool is_one_of_two(const Scene& scene) {
  const double measured = scene.cold->ohms.value();
  return scene.ratings->elements == 2 && measured >= (1.0 - doubled_slack) * 2.0 * scene.cold->limits.lower &&
         measured <= (1.0 + doubled_slack) * 2.0 * scene.cold->limits.upper;
}

Text cold_text(const Scene& scene, Outcome outcome) {
  if (outcome == Outcome::within_limits) return scene.cold->stated_off ? cold_within : connection_unstated;
  if (outcome == Outcome::undecided) return cold_unsure;
  if (scene.cold->ohms.value() > scene.cold->limits.upper) return is_one_of_two(scene) ? cold_one_of_two : cold_high;
  return scene.cold->stated_off ? cold_low : low_connection_unstated;
}

void tell_cold(const Scene& scene, Finding& finding) {
  const ColdOhms& cold = *scene.cold;
  finding.measured = ohms(cold.ohms.value());
  finding.measured_uncertainty = cold.ohms.standard_uncertainty();
  finding.limits.lower = ohms(cold.limits.lower);
  finding.limits.upper = ohms(cold.limits.upper);
  tell(finding, "measured", *finding.measured);
  tell(finding, "nominal", ohms(cold.limits.nominal));
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
  tell(finding, "off_percent", 100.0 * std::abs(cold.ohms.value() / cold.limits.nominal - 1.0));
}

void judge_cold(const Scene& scene) {
  const ColdOhms& cold = *scene.cold;
  const Conformance p = conformance_of(cold.ohms, scene.evidence.sources(), cold.limits.lower, cold.limits.upper);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Finding& finding = scene.findings.add(element_resistance, outcome, cold_text(scene, outcome));
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  tell_cold(scene, finding);
  const bool low_beside_others = finding.text == low_connection_unstated;
  if (scene.readings_disagree()) finding.text = disagreeing;
  if (scene.readings_disagree() || low_beside_others) {  // what cannot be trusted must not enter the joint probability
    finding.outcome = Outcome::undecided;
    return;
  }
  finding.judged = cold.ohms;
  finding.judged_lower = cold.limits.lower;
  finding.judged_upper = cold.limits.upper;
}

void judge_by_load(const Scene& scene) {
  const HeaterRatings& ratings = *scene.ratings;
  const Load& load = *scene.load;
  const double lower = ratings.power->value() * (1.0 - ratings.tolerance.below);
  const double upper = ratings.power->value() * (1.0 + ratings.tolerance.above);
  const Conformance p = conformance_of(load.rated_power, scene.evidence.sources(), lower, upper);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = by_load_unsure;
  if (outcome == Outcome::within_limits) text = by_load_within;
  if (outcome == Outcome::out_of_limits) text = load.rated_power.value() > upper ? by_load_high : by_load_low;
  Finding& finding = scene.findings.add(element_resistance, outcome, text);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.measured = watts(load.rated_power.value());
  finding.measured_uncertainty = load.rated_power.standard_uncertainty();
  finding.limits.lower = watts(lower);
  finding.limits.upper = watts(upper);
  finding.judged = load.rated_power;
  finding.judged_lower = lower;
  finding.judged_upper = upper;
  tell(finding, "measured", *finding.measured);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
  tell(finding, "voltage", AnyQuantity(*ratings.voltage));
  tell(finding, "hot", ohms(ratings.voltage->value() * ratings.voltage->value() / load.rated_power.value()));
}

}  // namespace

RuleDescriptor describe_element_resistance() {
  return {
      "element-resistance",
      OHMWRIGHT_TEXT("Resistance of the element"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "R = V^2/(P*Ct), Ct of alloy makers' tables; JCGM 106:2012 (conformance probability)",
      {
          {"cold-within",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}.")},
          {"cold-low",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}, {off_percent} % less, as if part of its wire were bridged: it draws too much, "
                          "and what is left runs too hot.")},
          {"cold-high",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}, {off_percent} % more: it heats too little, or a joint between the probes is "
                          "bad.")},
          {"cold-one-of-two",
           OHMWRIGHT_TEXT("Cold, the pair reads {lower} to {upper} when it is good. This one reads {measured}, about "
                          "twice as much: one of its two elements is open, and it makes half of its heat.")},
          {"cold-unsure",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}: with this meter too near to an end to tell.")},
          {"low-connection-unstated",
           OHMWRIGHT_TEXT(
               "It reads {measured}, below the {lower} to {upper} of a good one, but it was not said whether "
               "a lead was off. Still connected, another path beside it can make it read low.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one reads "
                          "{measured}. It was not said whether a lead was off; it is taken as off.")},
          {"by-load-within",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, and a good one "
                          "makes {lower} to {upper}. Hot, its wire has {hot}.")},
          {"by-load-high",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, more than the "
                          "{lower} to {upper} of a good one. Hot, its wire has {hot}: part of it is bridged, or "
                          "something else draws beside it.")},
          {"by-load-low",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, less than the "
                          "{lower} to {upper} of a good one. An element of it is open, or a joint on the way is bad.")},
          {"by-load-unsure",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, and a good one "
                          "makes {lower} to {upper}: with these instruments too near to an end to tell.")},
          {"disagreeing", OHMWRIGHT_TEXT("The readings do not agree with each other, so together they prove nothing.")},
          {"no-ratings",
           OHMWRIGHT_TEXT("Nothing is known of this heater, so only open and short can be told: name its ratings, the "
                          "volts and watts on its plate.")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: neither its ohms nor what it draws was read.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: it was read in circuit only, where other paths lie beside it.")},
          {"only-live",
           OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again.")},
      }};
}

namespace {

/// Whether the cold ohms leave the question open. What it draws is the better witness then: it holds no guess of what
/// the wire gains when hot.
bool cold_decides(const Scene& scene) {
  const ColdOhms& cold = *scene.cold;
  const Conformance p = conformance_of(cold.ohms, scene.evidence.sources(), cold.limits.lower, cold.limits.upper);
  return decide(p, scene.settings.confidence) != Outcome::undecided;
}

bool draws_something(const Scene& scene) {
  return scene.load && scene.load->rated_power.value() > no_current_share * scene.ratings->power->value();
}

}  // namespace

void judge_element_resistance(const Scene& scene) {
  if (scene.cold && (!draws_something(scene) || cold_decides(scene) || scene.readings_disagree())) {
    judge_cold(scene);
  } else if (draws_something(scene)) {
    judge_by_load(scene);
  } else {
    scene.findings.add(element_resistance, Outcome::silent, why_silent(scene));
  }
}

}  // namespace ohmwright::heater
