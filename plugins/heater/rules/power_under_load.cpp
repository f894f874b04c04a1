#include "rules/power_under_load.hpp"

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  enough,
  too_much,
  too_little,
  not_told_apart,
  next_to_nothing,
  no_line_voltage,
  no_rated_power,
  no_load,
  not_live,
};

const PreparedReading* last_under_load(const Scene& scene) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings())
    if ((reading.measurand == current || reading.measurand == power) && reading.shown == Shown::value) last = &reading;
  return last;
}

bool draws_next_to_nothing(const Scene& scene, const PreparedReading& reading) {
  if (reading.measurand == current) return reading.value.value() < no_current_below(scene.ratings);
  return scene.ratings->knows_power() && reading.value.value() < no_current_share * scene.ratings->power->value();
}

void judge_load(const Scene& scene) {
  const HeaterRatings& ratings = *scene.ratings;
  const Load& load = *scene.load;
  const double lower = ratings.power->value() * (1.0 - ratings.tolerance.below);
  const double upper = ratings.power->value() * (1.0 + ratings.tolerance.above);
  const Conformance p = conformance_of(load.rated_power, scene.evidence.sources(), lower, upper);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = not_told_apart;
  if (outcome == Outcome::within_limits) text = enough;
  if (outcome == Outcome::out_of_limits) text = load.rated_power.value() > upper ? too_much : too_little;
  Finding& finding = scene.findings.add(power_under_load, outcome, text);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.measured = watts(load.rated_power.value());
  finding.measured_uncertainty = load.rated_power.standard_uncertainty();
  finding.limits.lower = watts(lower);
  finding.limits.upper = watts(upper);
  finding.judged = load.rated_power;
  finding.judged_lower = lower;
  finding.judged_upper = upper;
  const double share = load.line_volt / ratings.voltage->value();
  tell(finding, "line", volts(load.line_volt));
  tell(finding, "now", watts(load.rated_power.value() * share * share));
  tell(finding, "measured", *finding.measured);
  tell(finding, "voltage", AnyQuantity(*ratings.voltage));
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
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
          {"too-much",
           OHMWRIGHT_TEXT("At {line} it makes {now}; at its rated {voltage} that is {measured}, and a good one makes "
                          "{lower} to {upper}. Part of its wire is bridged, it is another heater, or something else "
                          "draws through the clamp.")},
          {"too-little",
           OHMWRIGHT_TEXT(
               "At {line} it makes {now}; at its rated {voltage} that is {measured}, and a good one makes "
               "{lower} to {upper}. An element is open, it is another heater, or a joint on the way is bad.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT("At {line} it makes {now}; at its rated {voltage} that is {measured}, and a good one makes "
                          "{lower} to {upper}: with these instruments too near to an end to tell.")},
          {"next-to-nothing",
           OHMWRIGHT_TEXT("It draws next to nothing. Either it gets no volts, because a thermostat, link or control "
                          "before it is open, or it is open when hot: the volts across its own two leads tell which.")},
          {"no-line-voltage", OHMWRIGHT_TEXT("What it draws means nothing without the volts it gets (--line).")},
          {"no-rated-power", OHMWRIGHT_TEXT("Not judged: its rated volts and watts are not known.")},
          {"no-load", OHMWRIGHT_TEXT("Not judged: what it draws when it heats was not read.")},
          {"not-live", OHMWRIGHT_TEXT("Not judged: what it draws has to be read while it heats.")},
      }};
}

void judge_power_under_load(const Scene& scene) {
  const PreparedReading* reading = last_under_load(scene);
  if (reading == nullptr || !is_live(*reading)) {
    scene.findings.add(power_under_load, Outcome::silent, reading == nullptr ? no_load : not_live);
  } else if (draws_next_to_nothing(scene, *reading)) {
    scene.findings.add(power_under_load, Outcome::undecided, next_to_nothing).holds_back = true;
  } else if (scene.ratings == nullptr || !scene.ratings->knows_power()) {
    scene.findings.add(power_under_load, Outcome::silent, no_rated_power);
  } else if (!scene.load || scene.load->reading != reading) {
    scene.findings.add(power_under_load, Outcome::undecided, no_line_voltage);
  } else {
    judge_load(scene);
  }
}

}  // namespace ohmwright::heater
