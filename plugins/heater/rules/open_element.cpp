#include "rules/open_element.hpp"

#include <ohmwright/component/over_range.hpp>

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  open_for_certain,
  open_or_far_too_high,
  comes_and_goes,
  range_too_low,
  range_unknown,
  no_over_range,
  only_in_circuit,
  only_live,
  but_it_draws
};

/// More than this is no heater of any sort: 5 W at 240 V is 11.5 kohm (common practice, no source) [ohm].
constexpr double highest_of_any_heater = 20e3;

/// A path of more than this is no element with a bad joint (common practice, no source) [ohm].
constexpr double surely_open_ohms = 1e6;

double highest_of_good_part(const Scene& scene) {
  return scene.ratings == nullptr ? highest_of_any_heater : scene.ratings->cold().upper;
}

const PreparedReading* value_of_the_part(const Scene& scene) {
  for (const PreparedReading& reading : scene.evidence.readings())
    if (is_ohms(reading) && reading.shown == Shown::value && !is_live(reading) && !is_in_circuit(reading))
      return &reading;
  return nullptr;
}

}  // namespace

RuleDescriptor describe_open() {
  return {
      "open",
      OHMWRIGHT_TEXT("Open element"),
      false,
      can_condemn | can_be_undecided,
      "P(over-range | good part), ours; over-range condemns only past the upper limit",
      {
          {"open",
           OHMWRIGHT_TEXT("The meter shows more than {range}, and a good one reads at most {highest}: the element, a "
                          "link in its leads or a lead is open. It makes no heat.")},
          {"open-or-far-too-high",
           OHMWRIGHT_TEXT("The meter shows more than {range}, and a good one reads at most {highest}: it is open, or a "
                          "joint in it is bad. A higher range tells which.")},
          {"comes-and-goes",
           OHMWRIGHT_TEXT(
               "One reading shows OL, another {measured}: a contact comes and goes, at the probes, in a lead "
               "or in the element.")},
          {"range-too-low",
           OHMWRIGHT_TEXT("The meter shows more than {range}, but a good one may read up to {highest}: choose a higher "
                          "range.")},
          {"range-unknown",
           OHMWRIGHT_TEXT(
               "The meter shows over-range, but on which range is not known: say the range (a good one reads "
               "at most {highest}).")},
          {"no-over-range", OHMWRIGHT_TEXT("Not judged: no reading went past the meter's range.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged here: the over-range reading was taken in circuit, where it speaks of everything "
                          "between the probes.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"but-it-draws",
           OHMWRIGHT_TEXT("It reads open, and amperes were read through it: no element does both. One of the two is "
                          "wrong (a probe off its pin, the wrong jack, a clamp around another wire), or it opened in "
                          "between.")},
      }};
}

void judge_open(const Scene& scene) {
  const OverRangeSeen seen = over_range_seen(scene.evidence, is_ohms, is_of_a_wider_range);
  const PreparedReading* const decisive = seen.decisive;
  if (decisive == nullptr) {
    scene.findings.add(open_element, Outcome::silent, seen.lost_as(no_over_range, only_in_circuit, only_live));
    return;
  }
  const double highest = highest_of_good_part(scene);
  const bool past = decisive->range_full_scale > highest;
  const PreparedReading* value = past ? value_of_the_part(scene) : nullptr;
  Text text = decisive->range_full_scale > 0.0 ? range_too_low : range_unknown;
  if (past) text = decisive->range_full_scale < surely_open_ohms ? open_or_far_too_high : open_for_certain;
  if (value != nullptr) text = comes_and_goes;
  if (past && value == nullptr && is_seen_drawing(scene)) text = but_it_draws;
  const bool condemns = past && value == nullptr && text != but_it_draws;
  Finding& finding = scene.findings.add(open_element, condemns ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.holds_back = text == comes_and_goes || text == but_it_draws;
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = past ? 0.0 : 1.0;
  finding.limits.upper = ohms(highest);
  tell(finding, "highest", *finding.limits.upper);
  tell(finding, "range", ohms(decisive->range_full_scale));
  if (value != nullptr) tell(finding, "measured", ohms(value->displayed));
}

}  // namespace ohmwright::heater
