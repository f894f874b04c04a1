#include "rules/motor_winding.hpp"

#include <numbers>

#include "part/motor.hpp"

namespace ohmwright::defrost_control {

namespace {

enum Text : TextIndex {
  winding_within,
  winding_low,
  winding_high,
  winding_unsure,
  temperature_unstated,
  low_connection_unstated,
  winding_open,
  comes_and_goes,
  range_too_low,
  range_unknown,
  conducts,
  not_rated,
  no_motor,
  not_read,
  only_in_circuit,
};

/// More than this is no timer motor of any sort (common practice, no source) [ohm].
constexpr double highest_of_any_motor = 200e3;
/// A motor whose temperature was not given lies within this of its reference [K].
constexpr double unstated_half_width = 15.0;

struct Seen {
  const PreparedReading* value = nullptr;
  const PreparedReading* over_range = nullptr;
  bool in_the_circuit = false;
};

Seen look(const Scene& scene) {
  Seen seen;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != motor || is_live(reading)) continue;
    if (is_in_circuit(reading))
      seen.in_the_circuit = true;
    else if (!shows_more_than_range(reading))
      seen.value = &reading;
    else if (seen.over_range == nullptr || reading.range_full_scale > seen.over_range->range_full_scale)
      seen.over_range = &reading;
  }
  return seen;
}

void judge_open(const Scene& scene, const Seen& seen) {
  const bool rated = scene.ratings != nullptr && scene.ratings->motor.most;
  const double highest = rated ? scene.ratings->motor.most->value() : highest_of_any_motor;
  const double range = seen.over_range->range_full_scale;
  const bool said_open = seen.over_range->shown == Shown::contact_open;
  const bool past = said_open || range > highest;
  Text text = range > 0.0 ? range_too_low : range_unknown;
  if (past) text = seen.value != nullptr ? comes_and_goes : winding_open;
  Finding& finding =
      scene.findings.add(motor_winding, text == winding_open ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.holds_back = text == comes_and_goes;
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = past ? 0.0 : 1.0;
  finding.limits.upper = ohms(highest);
  tell(finding, "highest", *finding.limits.upper);
  tell(finding, "range", ohms(range));
  if (seen.value != nullptr) tell(finding, "measured", ohms(seen.value->displayed));
}

/// The reading at the temperature of the limits. Copper gains 0.385 % a kelvin; without a temperature that is a doubt.
Estimate at_reference(const PreparedReading& reading, Temperature reference) {
  const Estimate* stated = reading.condition(part_temperature);
  Estimate moved;
  if (stated != nullptr) {
    const Temperature t = Temperature::from_kelvin(stated->value());
    moved.add_scaled(reading.value, copper_factor(t, reference));
    moved.add_uncertainty(*stated, reading.value.value() * copper_factor_slope(t, reference));
    return moved;
  }
  moved.add_scaled(reading.value, 1.0);
  const double slope = reading.value.value() * copper_factor_slope(reference, reference);
  moved.add_term(Evidence::own_source(motor_temperature_source), slope * unstated_half_width / std::numbers::sqrt3);
  return moved;
}

void judge_value(const Scene& scene, const PreparedReading& reading) {
  const double least = scene.ratings->motor.least->value();
  const double most = scene.ratings->motor.most->value();
  const Estimate winding = at_reference(reading, scene.ratings->motor_temperature);
  const Conformance p = conformance_of(winding, scene.evidence.sources(), least, most);
  Outcome outcome = decide(p, scene.settings.confidence);
  const bool low = winding.value() < least;
  Text text = reading.condition(part_temperature) == nullptr ? temperature_unstated : winding_within;
  if (outcome == Outcome::undecided) text = winding_unsure;
  if (outcome == Outcome::out_of_limits) text = low ? winding_low : winding_high;
  if (outcome == Outcome::out_of_limits && low && !is_lead_off(reading)) {
    outcome = Outcome::undecided;
    text = low_connection_unstated;
  }
  Finding& finding = scene.findings.add(motor_winding, outcome, text);
  put_judged(finding, winding, least, most, Dimension::resistance, p);
  tell(finding, "measured", ohms(winding.value()));
  tell(finding, "lower", ohms(least));
  tell(finding, "upper", ohms(most));
  tell(finding, "temperature", AnyQuantity(scene.ratings->motor_temperature));
}

}  // namespace

RuleDescriptor describe_motor() {
  return {
      "motor-winding",
      OHMWRIGHT_TEXT("The winding of the timer motor"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "IEC 60034-1 (winding law), copper 234.5; P(over-range | good part), ours",
      {
          {"within",
           OHMWRIGHT_TEXT("Its motor has {measured} at {temperature}; a good one has {lower} to {upper}. That "
                          "clears neither a few shorted turns nor its gears: watch it move on.")},
          {"low",
           OHMWRIGHT_TEXT("Its motor has {measured} at {temperature}, less than the {lower} of a good one: turns "
                          "are shorted, or it is not this timer.")},
          {"high",
           OHMWRIGHT_TEXT("Its motor has {measured} at {temperature}, more than the {upper} of a good one: a bad "
                          "joint inside, or it is not this timer.")},
          {"unsure", OHMWRIGHT_TEXT("Its motor has {measured} at {temperature}; a good one has {lower} to {upper}: too "
                                    "near to an end to tell.")},
          {"temperature-unstated",
           OHMWRIGHT_TEXT("Its motor reads {measured}; a good one has {lower} to {upper} at {temperature}. Its own "
                          "temperature was not given; it is taken as within 15 K of that. Shorted turns and gears "
                          "ohms do not show: watch it move on.")},
          {"low-connection-unstated",
           OHMWRIGHT_TEXT("Its motor reads {measured}, less than the {lower} of a good one, but it was not said that a "
                          "wire was off: compressor, fan and heater beside it read so.")},
          {"open", OHMWRIGHT_TEXT("Its motor reads more than {range}, and no good one has more than {highest}: the "
                                  "winding is open, and the cam never moves.")},
          {"comes-and-goes", OHMWRIGHT_TEXT("Its motor reads OL once and {measured} another time: a joint in the "
                                            "winding, or the probes, come and go.")},
          {"range-too-low", OHMWRIGHT_TEXT("The meter shows more than {range}, but a good motor may read up to "
                                           "{highest}: choose a higher range.")},
          {"range-unknown", OHMWRIGHT_TEXT("The meter shows over-range, but on which range is not known: say the range "
                                           "(a good motor reads at most {highest}).")},
          {"conducts", OHMWRIGHT_TEXT("Its motor reads {measured}: not open. What a good one has is not known.")},
          {"not-rated", OHMWRIGHT_TEXT("Not judged: the ratings state no ohms of its motor.")},
          {"no-motor", OHMWRIGHT_TEXT("Not judged: a board has no timer motor.")},
          {"not-read", OHMWRIGHT_TEXT("Not judged: its motor was not read.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged here: its motor was read in circuit only, with everything else beside it.")},
      }};
}

void judge_motor(const Scene& scene) {
  const Seen seen = look(scene);
  if (scene.is_board()) {
    scene.findings.add(motor_winding, Outcome::silent, no_motor);
  } else if (seen.over_range != nullptr) {
    judge_open(scene, seen);
  } else if (seen.value == nullptr) {
    scene.findings.add(motor_winding, Outcome::silent, seen.in_the_circuit ? only_in_circuit : not_read);
  } else if (scene.ratings != nullptr && scene.ratings->motor.is_stated()) {
    judge_value(scene, *seen.value);
  } else if (scene.ratings != nullptr) {
    scene.findings.add(motor_winding, Outcome::silent, not_rated);
  } else {
    Finding& finding = scene.findings.add(motor_winding, Outcome::undecided, conducts);
    tell(finding, "measured", ohms(seen.value->value.value()));
  }
}

}  // namespace ohmwright::defrost_control
