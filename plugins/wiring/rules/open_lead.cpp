#include "rules/open_lead.hpp"

#include <algorithm>

#include <ohmwright/component/over_range.hpp>

namespace ohmwright::wiring {

namespace {

enum Text : TextIndex {
  open_for_certain,
  range_too_low,
  range_unknown,
  path_seen,
  no_over_range,
  only_in_circuit,
  only_live
};

double highest_of_good_part(const Scene& scene, const PreparedReading& reading) {
  return scene.knows_limit() ? scene.limit_at(reading).value() : most_of_any_wiring;
}

}  // namespace

RuleDescriptor describe_open() {
  return {
      "open",
      OHMWRIGHT_TEXT("Open"),
      false,
      can_condemn | can_be_undecided,
      "P(over-range | good part), ours; over-range condemns only past the upper limit",
      {
          {"open",
           OHMWRIGHT_TEXT("The meter shows more than {range}, and a good one has {highest} at most: it is open.")},
          {"range-too-low",
           OHMWRIGHT_TEXT("The meter shows more than {range}, but a good one may have up to {highest}: choose a higher "
                          "range.")},
          {"range-unknown",
           OHMWRIGHT_TEXT("The meter shows over-range, but on which range is not known: say the range.")},
          {"path-seen", OHMWRIGHT_TEXT("Not judged here: another reading shows a path, so it comes and goes.")},
          {"no-over-range", OHMWRIGHT_TEXT("Not judged: no reading went past the meter's range.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged here: the over-range reading was taken in circuit, where it speaks of everything "
                          "between the probes.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
      }};
}

void judge_open(const Scene& scene) {
  const OverRangeSeen seen = over_range_seen(scene.evidence, is_ohms, is_of_a_wider_range);
  const PreparedReading* const decisive = seen.decisive;
  if (decisive == nullptr || scene.opened_and_closed) {
    const Text silence = seen.lost_as(no_over_range, only_in_circuit, only_live);
    scene.findings.add(open_lead, Outcome::silent, decisive == nullptr ? silence : path_seen);
    return;
  }
  const double highest = highest_of_good_part(scene, *decisive);
  // "Open" in words is no range's end: whoever says so has looked.
  const bool said_open = decisive->shown == Shown::contact_open;
  const bool past = said_open || decisive->range_full_scale > highest;
  Text text = decisive->range_full_scale > 0.0 ? range_too_low : range_unknown;
  if (past) text = open_for_certain;
  Finding& finding = scene.findings.add(open_lead, past ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = past ? 0.0 : 1.0;
  finding.limits.upper = in_ohms(highest);
  tell(finding, "highest", *finding.limits.upper);
  tell(finding, "range", in_ohms(std::max(decisive->range_full_scale, said_open ? highest : 0.0)));
}

}  // namespace ohmwright::wiring
