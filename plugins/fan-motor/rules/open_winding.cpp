#include "rules/open_winding.hpp"

#include <algorithm>
#include <optional>

#include <ohmwright/component/over_range.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  open_for_certain,
  open_or_far_too_high,
  open_rating_unknown,
  perhaps_protector,
  perhaps_warm,
  stood_under_power,
  common_open,
  common_perhaps_protector,
  comes_and_goes,
  range_too_low,
  no_over_range,
  only_in_circuit,
  only_live,
  electronic,
  far_too_high,
  perhaps_far_too_high,
  but_it_turns,
};

/// The upper limit moved to the hottest winding that is read: copper has half as much again at 140 degC.
constexpr double hot_share = 1.5;

/// Fed, and nobody saw it turn: whatever was read beside it, its winding is hot.
bool stood_fed(const Scene& scene) {
  return scene.plug.reading != nullptr && scene.plug.feed() && (!scene.turning || scene.stands_still());
}

/// An open protector closes when it has cooled: of a motor that may be warm OL condemns no winding.
Text text_by_warmth(const Scene& scene, const PreparedReading& reading, Text cool) {
  if (is_said_cool(reading)) return stood_fed(scene) ? stood_under_power : cool;
  return reading.condition(part_temperature) != nullptr ? perhaps_protector : perhaps_warm;
}

bool is_open_from_common(const Scene& scene, std::uint16_t measurand) {
  return any_of(scene.evidence, [&](const PreparedReading& r) {
    return r.measurand == measurand && shows_more_than_range(r) && !is_live(r) && !is_in_circuit(r);
  });
}

/// Start to run reads, and common to neither: both windings are whole.
const PreparedReading* whole_but_common(const Scene& scene) {
  if (!is_open_from_common(scene, common_run) || !is_open_from_common(scene, common_start)) return nullptr;
  const PreparedReading* ends = last_value(scene.evidence, start_run);
  return ends != nullptr && !is_live(*ends) && !is_in_circuit(*ends) ? ends : nullptr;
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

/// What an open protector explains as well.
bool is_protectors(TextIndex text) {
  return text == perhaps_protector || text == perhaps_warm || text == stood_under_power ||
         text == common_perhaps_protector || text == perhaps_far_too_high;
}

/// Past what a good one reads, one that was said to be cool before one that may be warm; else the wider range.
bool says_more(const Scene& scene, const PreparedReading& a, const PreparedReading& b) {
  const double highest = highest_of_good_part(scene);
  const bool both_past = a.range_full_scale > highest && b.range_full_scale > highest;
  if (both_past && is_said_cool(a) != is_said_cool(b)) return is_said_cool(a);
  return a.range_full_scale > b.range_full_scale;
}

}  // namespace

bool may_be_its_protector(const Scene& scene) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(),
                     [](const Finding& f) { return f.rule == open_winding && is_protectors(f.text); });
}

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
          {"perhaps-warm",
           OHMWRIGHT_TEXT(
               "It reads open, and how warm its winding is was not said. In a motor that ran, or stood still "
               "under power, a protector may have opened, which closes when the motor has cooled.")},
          {"stood-under-power",
           OHMWRIGHT_TEXT("It reads open, and it stood still under power, so its winding is warmer than what was read "
                          "beside it: a protector inside may have opened, and closes when the motor has cooled.")},
          {"common-open",
           OHMWRIGHT_TEXT(
               "From common to run and to start it reads open, from start to run {measured}: both windings are "
               "whole, and what is open is the common: a protector inside, its fuse or its lead.")},
          {"common-perhaps-protector",
           OHMWRIGHT_TEXT(
               "From common to run and to start it reads open, from start to run {measured}: both windings are "
               "whole, and what is open is the common: its lead, its fuse, or a protector inside that closes "
               "when the motor has cooled.")},
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
          {"far-too-high",
           OHMWRIGHT_TEXT(
               "It reads {measured}, and no winding reads more than {highest}: the winding, its fuse or a lead "
               "is as good as open, or a k too much was read.")},
          {"perhaps-far-too-high",
           OHMWRIGHT_TEXT(
               "It reads {measured}, and no winding reads more than {highest}. It is as good as open, or a "
               "protector inside is, which closes when the motor has cooled, or a k too much was read: that it "
               "is cool was not said, or it was not read so each time.")},
          {"but-it-turns",
           OHMWRIGHT_TEXT("It reads open, and it was seen to turn: no winding does both. One of the two is wrong (a "
                          "probe off its pin, the wrong jack), or it opened in between.")},
      }};
}

namespace {

/// What shows as many ohms as no winding has; where its own ratings and temperature judge it, that says more.
const PreparedReading* far_too_many_ohms(const Scene& scene) {
  for (const PreparedReading& reading : scene.evidence.readings())
    if (is_past_any_winding(reading) && !(is_ohms(reading) && scene.wound)) return &reading;
  return nullptr;
}

void judge_far_too_high(const Scene& scene, const PreparedReading& reading) {
  const bool each_time = !any_of(scene.evidence, [&](const PreparedReading& r) {
    return r.measurand == reading.measurand && r.shown == Shown::value && !is_live(r) && !is_in_circuit(r) &&
           !is_past_any_winding(r);
  });
  const bool condemns = each_time && scene.jumping == 0.0 && is_said_cool(reading) && !stood_fed(scene);
  Finding& finding = scene.findings.add(open_winding, condemns ? Outcome::out_of_limits : Outcome::undecided,
                                        condemns ? far_too_high : perhaps_far_too_high);
  finding.holds_back = !condemns;
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = condemns ? 0.0 : 1.0;
  finding.limits.upper = ohms(highest_of_any_winding);
  tell(finding, "measured", ohms(reading.displayed));
  tell(finding, "highest", *finding.limits.upper);
}

}  // namespace

void judge_open(const Scene& scene) {
  const OverRangeSeen seen =
      over_range_seen(scene.evidence, is_of_a_winding,
                      [&](const PreparedReading& a, const PreparedReading& b) { return says_more(scene, a, b); });
  const PreparedReading* const decisive = seen.decisive;
  const Text silence = seen.lost_as(no_over_range, only_in_circuit, only_live);
  if (scene.is_electronic() && (decisive != nullptr || silence == only_in_circuit)) {
    scene.findings.add(open_winding, Outcome::silent, electronic);
    return;
  }
  const PreparedReading* const too_many = scene.is_electronic() ? nullptr : far_too_many_ohms(scene);
  if (decisive == nullptr && too_many != nullptr) {
    judge_far_too_high(scene, *too_many);
    return;
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
  if (past) text = text_by_warmth(scene, *decisive, text);
  if (const PreparedReading* ends = past ? whole_but_common(scene) : nullptr) {
    text = is_protectors(text) ? common_perhaps_protector : common_open;
    value = ends;
  } else if (value != nullptr) {
    text = comes_and_goes;
  }
  if (past && value == nullptr && is_seen_turning(scene)) text = but_it_turns;
  const bool condemns = past && !is_protectors(text) && text != comes_and_goes && text != but_it_turns;
  Finding& finding = scene.findings.add(open_winding, condemns ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.holds_back = text == comes_and_goes || text == but_it_turns || is_protectors(text);
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
