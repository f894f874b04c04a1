#include "rules/power_under_load.hpp"

#include <cmath>

#include <ohmwright/component/repeated_readings.hpp>

#include "part/power_by_ohms.hpp"
#include "rules/supply_without_current.hpp"

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  enough,
  enough_at_rated,
  enough_at_plug,
  too_much,
  too_little,
  too_little_at_element,
  not_told_apart,
  more_at_plug,
  more_than_its_ohms,
  less_than_its_ohms,
  far_from_rated,
  far_above_rated,
  next_to_nothing,
  no_line_voltage,
  jumping,
  no_rated_power,
  no_load,
  not_live,
  said_by_volts_and_no_current,
  too_little_perhaps_joint,
  too_little_at_plug,
};

/// The last reading of amperes or watts, those under load before others.
const PreparedReading* last_drawn(const Scene& scene) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    const bool drawn = (reading.measurand == current || reading.measurand == power) && reading.shown == Shown::value;
    if (drawn && (last == nullptr || is_under_load(reading) || !is_under_load(*last))) last = &reading;
  }
  return last;
}

bool draws_next_to_nothing(const Scene& scene, const PreparedReading& reading) {
  if (reading.measurand == current) return reading.value.value() < no_current_below(scene.ratings);
  return scene.ratings != nullptr && scene.ratings->knows_power() &&
         reading.value.value() < no_current_share * scene.ratings->power->value();
}

bool passes_cold(const Scene& scene) {
  return scene.cold && !scene.readings_disagree() && scene.cold->outcome == Outcome::within_limits;
}

/// Right when cold, it is not condemned by volts that were read somewhere else.
bool its_ohms_speak_for_it(const Scene& scene) { return passes_cold(scene) && !scene.load->at_element; }

Text text_of_load(const Scene& scene) {
  const Load& load = *scene.load;
  if (load.far_from_rated) return scene.far_too_many_volt > 0.0 ? far_above_rated : far_from_rated;
  if (load.outcome == Outcome::within_limits) {
    if (load.whole_plug) return enough_at_plug;
    return std::abs(load.line_volt / scene.ratings->voltage->value() - 1.0) < 1e-3 ? enough_at_rated : enough;
  }
  if (load.outcome == Outcome::undecided) return load.others_may_draw() ? more_at_plug : not_told_apart;
  if (load.too_much()) return its_ohms_speak_for_it(scene) ? more_than_its_ohms : too_much;
  if (its_ohms_speak_for_it(scene)) return less_than_its_ohms;
  if (!load.joint_may_take()) return too_little_at_element;
  if (scene.cold && scene.cold->outcome == Outcome::out_of_limits && !scene.readings_disagree()) return too_little;
  return load.whole_plug ? too_little_at_plug : too_little_perhaps_joint;
}

void tell_load(const Scene& scene, Finding& finding) {
  const HeaterRatings& ratings = *scene.ratings;
  const Load& load = *scene.load;
  finding.measured = watts(load.rated_power.value());
  finding.measured_uncertainty = load.rated_power.standard_uncertainty();
  finding.limits.lower = watts(load.lower);
  finding.limits.upper = watts(load.upper);
  const double share = load.line_volt / ratings.voltage->value();
  tell(finding, "line", volts(load.line_volt));
  tell(finding, "now", watts(load.rated_power.value() * share * share));
  tell(finding, "expected", watts(ratings.power->value() * share * share));
  tell(finding, "measured", *finding.measured);
  tell(finding, "voltage", AnyQuantity(*ratings.voltage));
  tell(finding, "times", share * share);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
}

/// What its cold ohms would make of the outlet's volts: a wire that gains when hot makes a little less.
void tell_power_by_ohms(const Scene& scene, Finding& finding) {
  const Estimate* line = scene.load->reading->condition(line_voltage);
  const Estimate by_ohms = line == nullptr ? Estimate(0.0) : power_by_ohms(*line, scene.cold->ohms);
  tell(finding, "by_ohms", watts(by_ohms.value()));
  tell(finding, "doubt", watts(2.0 * by_ohms.standard_uncertainty()));
}

void judge_load(const Scene& scene) {
  const Load& load = *scene.load;
  const Text text = text_of_load(scene);
  const bool beside_its_ohms = text == less_than_its_ohms || text == more_than_its_ohms;
  const bool perhaps_on_the_way = text == too_little_perhaps_joint || text == too_little_at_plug;
  const bool open = beside_its_ohms || perhaps_on_the_way;
  Finding& finding = scene.findings.add(power_under_load, open ? Outcome::undecided : load.outcome, text);
  finding.holds_back = open || text == far_above_rated;
  tell_load(scene, finding);
  if (beside_its_ohms) tell_power_by_ohms(scene, finding);
  // What is not of the element alone, or not of volts where the square holds, must not enter a probability.
  if (open || text == far_from_rated || text == far_above_rated || text == more_at_plug) return;
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = load.p.within;
  finding.judged = load.rated_power;
  finding.judged_lower = load.lower;
  finding.judged_upper = load.upper;
}

}  // namespace

RuleDescriptor describe_power_under_load() {
  return {
      "power-under-load",
      OHMWRIGHT_TEXT("Power when it heats"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "Ohm and Joule: P(V) = Pr*(V/Vr)^2; limits as the ratings state them, else IEC 60335-1 clause 10 (from memory)",
      {
          {"enough",
           OHMWRIGHT_TEXT("At {line} it makes {now}; at its rated {voltage} that is {measured}, and a good one makes "
                          "{lower} to {upper}.")},
          {"enough-at-rated",
           OHMWRIGHT_TEXT("At {line}, for which it is made, it makes {now}; a good one makes {lower} to {upper}.")},
          {"enough-at-plug",
           OHMWRIGHT_TEXT("At {line} the plug takes {now}; at its rated {voltage} that is {measured}, and a good one "
                          "makes {lower} to {upper}. That holds if nothing else ran on the plug.")},
          {"too-much",
           OHMWRIGHT_TEXT("At {line} it makes {now}; at its rated {voltage} that is {measured}, and a good one makes "
                          "{lower} to {upper}. Part of its wire is bridged, it is another heater, or something else "
                          "draws through the clamp.")},
          {"too-little",
           OHMWRIGHT_TEXT(
               "At {line} it makes {now}; at its rated {voltage} that is {measured}, and a good one makes "
               "{lower} to {upper}. An element is open, it is another heater, or a joint on the way is bad.")},
          {"too-little-at-element",
           OHMWRIGHT_TEXT("With {line} across its own leads it makes {now}; at its rated {voltage} that is {measured}, "
                          "and a good one makes {lower} to {upper}. An element is open, at least while it is hot, or "
                          "it is another heater.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT("At {line} it makes {now}; at its rated {voltage} that is {measured}, and a good one makes "
                          "{lower} to {upper}: with these instruments too near to an end to tell.")},
          {"more-at-plug",
           OHMWRIGHT_TEXT("At {line} the plug takes {now}, where a good one makes about {expected}. Whatever else runs "
                          "on the plug is in it, so the element may be good: a clamp around one of its own leads "
                          "tells.")},
          {"more-than-its-ohms",
           OHMWRIGHT_TEXT(
               "At {line} {now} go through the clamp, where a good one makes about {expected} and its own cold "
               "ohms, which are right, {by_ohms} ± {doubt}: something else draws through the clamp, or it leaks to the "
               "frame when hot. "
               "Leave it unplugged until that is found.")},
          {"less-than-its-ohms",
           OHMWRIGHT_TEXT(
               "At {line} it makes {now}, where a good one makes about {expected} and its own cold ohms, which "
               "are right, {by_ohms} ± {doubt}: a joint on the way to it takes the rest and runs hot, or part of it "
               "opens when hot. "
               "The volts across its own two leads tell which.")},
          {"far-from-rated",
           OHMWRIGHT_TEXT("It gets {line} where {voltage} belong, and makes {now}; a good one makes about {expected} "
                          "there. So far from its rated volts that judges nothing: find out first where the volts "
                          "are lost.")},
          {"far-above-rated",
           OHMWRIGHT_TEXT(
               "It gets {line} where {voltage} belong, and makes {now}: {times} times its heat is what a good "
               "one makes there. Switch it off now. The heater is for another voltage, or the supply is "
               "wrong; that judges no heater.")},
          {"next-to-nothing",
           OHMWRIGHT_TEXT("It draws next to nothing. Either it gets no volts, because a thermostat, link or control "
                          "before it is open, or it is open when hot: the volts across its own two leads tell which.")},
          {"no-line-voltage", OHMWRIGHT_TEXT("What it draws means nothing without the volts it gets (--line).")},
          {"jumping",
           OHMWRIGHT_TEXT(
               "What it draws jumps by about {scatter_percent} %, so its mean says nothing: a contact on the "
               "way to it comes and goes, or it cycles.")},
          {"no-rated-power", OHMWRIGHT_TEXT("Not judged: its rated volts and watts are not known.")},
          {"no-load", OHMWRIGHT_TEXT("Not judged: what it draws when it heats was not read.")},
          {"not-live", OHMWRIGHT_TEXT("Not judged: what it draws has to be read while it heats.")},
          {"volts-and-no-current",
           OHMWRIGHT_TEXT("Not judged: there are volts across its own leads and no current, which says more.")},
          {"too-little-perhaps-joint",
           OHMWRIGHT_TEXT(
               "At {line} it makes {now}; at its rated {voltage} that is {measured}, and a good one makes {lower} to "
               "{upper}. An element is open, it is another heater, or a joint on the way takes the rest: its ohms when "
               "cold, or the volts across its own two leads, tell which.")},
          {"too-little-at-plug",
           OHMWRIGHT_TEXT(
               "At {line} the plug takes {now}, where a good one alone makes about {expected}. It heats too little, a "
               "joint on the way takes the rest, or it did not heat and something else ran: is it in defrost?")},
      }};
}

void judge_power_under_load(const Scene& scene) {
  const PreparedReading* reading = last_drawn(scene);
  if (reading == nullptr || !is_under_load(*reading)) {
    scene.findings.add(power_under_load, Outcome::silent, reading == nullptr ? no_load : not_live);
  } else if (draws_next_to_nothing(scene, *reading) && is_fed_and_cold(scene)) {
    scene.findings.add(power_under_load, Outcome::silent, said_by_volts_and_no_current);
  } else if (draws_next_to_nothing(scene, *reading)) {
    scene.findings.add(power_under_load, Outcome::undecided, next_to_nothing).holds_back = true;
  } else if (scene.ratings == nullptr || !scene.ratings->knows_power()) {
    scene.findings.add(power_under_load, Outcome::silent, no_rated_power);
  } else if (repeats_jump(scene.evidence, *reading)) {
    Finding& finding = scene.findings.add(power_under_load, Outcome::undecided, jumping);
    finding.holds_back = true;
    tell(finding, "scatter_percent", std::round(100.0 * relative_scatter(scene.evidence, *reading)));
  } else if (!scene.load || scene.load->reading != reading) {
    scene.findings.add(power_under_load, Outcome::undecided, no_line_voltage);
  } else {
    judge_load(scene);
  }
}

}  // namespace ohmwright::heater
