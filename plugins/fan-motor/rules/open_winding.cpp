#include "rules/open_winding.hpp"

#include <optional>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  open_for_certain,
  open_or_far_too_high,
  open_rating_unknown,
  perhaps_protector,
  comes_and_goes,
  range_too_low,
  no_over_range,
  only_in_circuit,
  only_live,
  electronic,
};

/// More than this is no fan motor's winding (common practice, no source) [ohm].
constexpr double highest_of_any_winding = 20e3;
/// The upper limit moved to the hottest winding that is read: copper has half as much again at 140 degC.
constexpr double hot_share = 1.5;

bool is_of_a_winding(const PreparedReading& reading) {
  return reading.measurand == winding || reading.measurand == common_run || reading.measurand == common_start ||
         reading.measurand == start_run;
}

bool is_hot(const PreparedReading& reading) {
  const Estimate* temperature = reading.condition(part_temperature);
  return temperature != nullptr && temperature->value() > protector_may_open_kelvin;
}

/// A path of more than this is no winding with a bad joint (common practice, no source) [ohm].
constexpr double surely_open_ohms = 1e6;

std::optional<Span> rated_limits(const Scene& scene) {
  return scene.ratings != nullptr ? scene.ratings->winding_limits() : std::nullopt;
}

double highest_of_good_part(const Scene& scene) {
  const auto limits = rated_limits(scene);
  return limits ? hot_share * limits->upper : highest_of_any_winding;
}

/// The most that a good one reads, and where: at the temperature that was given, else as hot as it gets.
void tell_highest(const Scene& scene, const PreparedReading& reading, Finding& finding) {
  const auto limits = rated_limits(scene);
  if (!limits) {
    finding.limits.upper = ohms(highest_of_any_winding);
    tell(finding, "highest", *finding.limits.upper);
    return;
  }
  const FanMotorRatings& ratings = *scene.ratings;
  const double k = ratings.conductor_constant;
  const double reference = ratings.reference_temperature.celsius();
  const Estimate* given = reading.condition(part_temperature);
  const double hottest = hot_share * (k + reference) - k;
  const double celsius = given != nullptr ? Temperature::from_kelvin(given->value()).celsius() : hottest;
  finding.limits.upper = ohms(limits->upper * (k + celsius) / (k + reference));
  tell(finding, "highest", *finding.limits.upper);
  tell(finding, "temperature", AnyQuantity(Temperature::from_celsius(celsius)));
}

const PreparedReading* same_with_value(const Scene& scene, const PreparedReading& open) {
  for (const PreparedReading& reading : scene.evidence.readings())
    if (reading.measurand == open.measurand && reading.shown == Shown::value && !is_live(reading) &&
        !is_in_circuit(reading))
      return &reading;
  return nullptr;
}

}  // namespace

RuleDescriptor describe_open() {
  return {
      "open",
      OHMWRIGHT_TEXT("Open winding"),
      false,
      can_condemn | can_be_undecided,
      "P(over-range | good part), ours; over-range condemns only past the upper limit",
      {
          {"open", OHMWRIGHT_TEXT("The meter shows more than {range}, and a good winding reads at most {highest} at "
                                  "{temperature}: the winding, its fuse or a lead is open. It cannot run.")},
          {"open-or-far-too-high",
           OHMWRIGHT_TEXT("The meter shows more than {range}, and a good winding reads at most {highest} at "
                          "{temperature}: it is open, or a joint in it is bad. A higher range tells which.")},
          {"open-rating-unknown",
           OHMWRIGHT_TEXT("The meter shows more than {range}, and no winding reads more than {highest}: the winding, "
                          "its fuse or a lead is open. It cannot run.")},
          {"perhaps-protector",
           OHMWRIGHT_TEXT("It reads open, and it is hot: a protector inside may have opened, and closes when the motor "
                          "has cooled.")},
          {"comes-and-goes",
           OHMWRIGHT_TEXT(
               "One reading shows OL, another {measured}: a contact comes and goes, at the probes, in a lead "
               "or in the winding.")},
          {"range-too-low",
           OHMWRIGHT_TEXT("The meter shows over-range, but a good winding may read up to {highest} when it is hot: "
                          "choose a higher range, and say which.")},
          {"no-over-range", OHMWRIGHT_TEXT("Not judged: no reading went past the meter's range.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged here: the over-range reading was taken in circuit, where it speaks of everything "
                          "between the probes.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"electronic",
           OHMWRIGHT_TEXT("Not judged: OL between the leads of an electronically commutated motor means nothing.")},
      }};
}

void judge_open(const Scene& scene) {
  const PreparedReading* decisive = nullptr;
  Text silence = no_over_range;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_of_a_winding(reading) || !shows_more_than_range(reading)) continue;
    if (is_live(reading))
      silence = only_live;
    else if (scene.is_electronic())
      silence = electronic;
    else if (is_in_circuit(reading))
      silence = only_in_circuit;
    else if (decisive == nullptr || reading.range_full_scale > decisive->range_full_scale)
      decisive = &reading;
  }
  if (decisive == nullptr) {
    scene.findings.add(open_winding, Outcome::silent, silence);
    return;
  }
  const double highest = highest_of_good_part(scene);
  const bool past = decisive->range_full_scale > highest;
  const PreparedReading* value = past ? same_with_value(scene, *decisive) : nullptr;
  Text text = range_too_low;
  if (past) text = decisive->range_full_scale < surely_open_ohms ? open_or_far_too_high : open_for_certain;
  if (past && !rated_limits(scene)) text = open_rating_unknown;
  if (past && is_hot(*decisive)) text = perhaps_protector;
  if (value != nullptr) text = comes_and_goes;
  const bool condemns = past && text != perhaps_protector && text != comes_and_goes;
  Finding& finding = scene.findings.add(open_winding, condemns ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.holds_back = text == comes_and_goes || text == perhaps_protector;
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = condemns ? 0.0 : 1.0;
  if (past) {
    tell_highest(scene, *decisive, finding);
  } else {
    finding.limits.upper = ohms(highest);
    tell(finding, "highest", *finding.limits.upper);
  }
  tell(finding, "range", ohms(decisive->range_full_scale));
  if (value != nullptr) tell(finding, "measured", ohms(value->displayed));
}

}  // namespace ohmwright::fan_motor
