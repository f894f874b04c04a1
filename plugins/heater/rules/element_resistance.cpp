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
  brought_within,
  brought_outside,
  brought_unsure,
  low_connection_unstated,
  connection_unstated,
  by_load_within,
  by_load_high,
  by_load_low,
  by_load_unsure,
  by_load_gains_more,
  contradicting,
  disagreeing,
  no_ratings,
  no_reading,
  load_leaves_open,
  only_in_circuit,
  only_live,
};

/// How far twice the limits of the pair may be missed by an element that is left alone.
constexpr double doubled_slack = 0.03;

Text why_silent(const Scene& scene) {
  if (scene.ratings == nullptr) return no_ratings;
  Text text = no_reading;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (text == no_reading && (reading.measurand == current || reading.measurand == power)) text = load_leaves_open;
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
  const ColdOhms& cold = *scene.cold;
  const bool high = cold.ohms.value() > cold.limits.upper;
  if (outcome == Outcome::out_of_limits && high && is_one_of_two(scene)) return cold_one_of_two;
  if (outcome == Outcome::out_of_limits && !high && !cold.stated_off) return low_connection_unstated;
  if (cold.read_hot)
    return outcome == Outcome::within_limits ? brought_within
           : outcome == Outcome::undecided   ? brought_unsure
                                             : brought_outside;
  if (outcome == Outcome::within_limits) return cold.stated_off ? cold_within : connection_unstated;
  if (outcome == Outcome::undecided) return cold_unsure;
  return high ? cold_high : cold_low;
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
  Finding& finding = scene.findings.add(element_resistance, cold.outcome, cold_text(scene, cold.outcome));
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = cold.p.within;
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

/// What the wire has when it is hot, by what it draws [ohm].
double hot_ohms(const Scene& scene) {
  const double volt = scene.ratings->voltage->value();
  return volt * volt / scene.load->rated_power.value();
}

Text load_text(const Scene& scene) {
  const Load& load = *scene.load;
  if (load.outcome == Outcome::undecided) return by_load_unsure;
  if (load.outcome == Outcome::out_of_limits) return load.too_much() ? by_load_high : by_load_low;
  return scene.witness == Witness::load_over_low ? by_load_gains_more : by_load_within;
}

void judge_by_load(const Scene& scene) {
  const Load& load = *scene.load;
  Finding& finding = scene.findings.add(element_resistance, load.outcome, load_text(scene));
  finding.measured = watts(load.rated_power.value());
  finding.measured_uncertainty = load.rated_power.standard_uncertainty();
  finding.limits.lower = watts(load.lower);
  finding.limits.upper = watts(load.upper);
  tell(finding, "measured", *finding.measured);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
  tell(finding, "voltage", AnyQuantity(*scene.ratings->voltage));
  tell(finding, "hot", ohms(hot_ohms(scene)));
  if (scene.cold) tell(finding, "cold", ohms(scene.cold->ohms.value()));
  if (load.others_may_draw()) return;  // not of the element alone: no probability
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = load.p.within;
  finding.judged = load.rated_power;
  finding.judged_lower = load.lower;
  finding.judged_upper = load.upper;
}

void say_contradiction(const Scene& scene) {
  Finding& finding = scene.findings.add(element_resistance, Outcome::undecided, contradicting);
  tell(finding, "cold", ohms(scene.cold->ohms.value()));
  tell(finding, "hot", ohms(hot_ohms(scene)));
  tell(finding, "lower", ohms(scene.cold->limits.lower));
  tell(finding, "upper", ohms(scene.cold->limits.upper));
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
          {"brought-within",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one was read hot; "
                          "brought back to cold it has {measured}.")},
          {"brought-outside",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one was read hot; "
                          "brought back to cold it has {measured}, {off_percent} % off.")},
          {"brought-unsure",
           OHMWRIGHT_TEXT("Cold, a good one reads {lower} to {upper}, {nominal} by its rating. This one was read hot; "
                          "brought back to cold it has {measured}: too near to an end to tell.")},
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
          {"by-load-gains-more",
           OHMWRIGHT_TEXT("Judged by what it draws: at its rated {voltage} it would make {measured}, and a good one "
                          "makes {lower} to {upper}. Cold it reads low, {cold}, but hot its wire has {hot}: its alloy "
                          "gains more than the usual ones do.")},
          {"contradicting",
           OHMWRIGHT_TEXT(
               "Cold it reads {cold}, where a good one has {lower} to {upper}, but by what it draws its wire "
               "has {hot} when hot, as a good one has. No wire does both: one of the readings is wrong.")},
          {"disagreeing", OHMWRIGHT_TEXT("The readings do not agree with each other, so together they prove nothing.")},
          {"no-ratings",
           OHMWRIGHT_TEXT("Nothing is known of this heater, so only open and short can be told: name its ratings, the "
                          "volts and watts on its plate.")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: neither its ohms nor what it draws was read.")},
          {"load-leaves-open",
           OHMWRIGHT_TEXT("Not judged: what it draws leaves that open, and its cold ohms were not read.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: it was read in circuit only, where other paths lie beside it.")},
          {"only-live",
           OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again.")},
      }};
}

void judge_element_resistance(const Scene& scene) {
  switch (scene.witness) {
    case Witness::none:
      scene.findings.add(element_resistance, Outcome::silent, why_silent(scene));
      break;
    case Witness::cold:
      judge_cold(scene);
      break;
    case Witness::load:
    case Witness::load_over_low:
      judge_by_load(scene);
      break;
    case Witness::contradiction:
      say_contradiction(scene);
      break;
  }
}

}  // namespace ohmwright::heater
