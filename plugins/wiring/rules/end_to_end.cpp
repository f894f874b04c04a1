#include "rules/end_to_end.hpp"

#include <algorithm>
#include <limits>

namespace ohmwright::wiring {

namespace {

enum Text : TextIndex {
  ohms_within,
  ohms_high,
  ohms_unsure,
  below_the_leads,
  connection_unstated,
  drop_within,
  drop_high,
  drop_unsure,
  less_than_copper,
  contradicting,
  disagreeing,
  only_continuity,
  high_without_ratings,
  no_ratings,
  no_length,
  no_reading,
  drop_leaves_open,
  only_in_circuit,
  only_live,
};

constexpr double infinity = std::numeric_limits<double>::infinity();

bool only_said_closed(const Scene& scene) {
  const auto readings = scene.evidence.readings();
  return !scene.ohms && std::any_of(readings.begin(), readings.end(), [](const PreparedReading& reading) {
    return is_of_the_wire(reading) && reading.shown == Shown::contact_closed;
  });
}

Text why_silent(const Scene& scene) {
  Text text = no_reading;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand == drop && text == no_reading) text = drop_leaves_open;
    if (!is_ohms(reading) || shows_more_than_range(reading)) continue;
    if (is_live(reading))
      text = only_live;
    else if (is_in_circuit(reading))
      text = only_in_circuit;
  }
  return text;
}

/// With ratings that say too little, or none: only what no sound wiring has can be told, and that decides nothing.
void say_without_limit(const Scene& scene) {
  const bool sure =
      scene.ohms && !scene.comes_and_goes() &&
      conformance_of(scene.ohms->excess, scene.evidence.sources(), -infinity, most_of_any_wiring).within <=
          1.0 - scene.settings.confidence;
  if (!sure) {
    scene.findings.add(end_to_end, Outcome::silent, scene.ratings == nullptr ? no_ratings : no_length);
    return;
  }
  Finding& finding = scene.findings.add(end_to_end, Outcome::undecided, high_without_ratings);
  finding.measured = in_ohms(scene.ohms->value());
  tell(finding, "measured", *finding.measured);
  tell(finding, "most", in_ohms(most_of_any_wiring));
}

Text text_of_ohms(const OhmsSeen& ohms) {
  if (ohms.outcome == Outcome::out_of_limits) return ohms_high;
  if (ohms.drowns_in_leads()) return below_the_leads;
  if (ohms.outcome == Outcome::undecided) return ohms_unsure;
  return ohms.stated_off ? ohms_within : connection_unstated;
}

void judge_by_ohms(const Scene& scene) {
  const OhmsSeen& ohms = *scene.ohms;
  const Text text = text_of_ohms(ohms);
  const bool cleared_by_nothing = text == below_the_leads || text == connection_unstated;
  Finding& finding = scene.findings.add(end_to_end, cleared_by_nothing ? Outcome::undecided : ohms.outcome, text);
  finding.measured = in_ohms(ohms.value());
  finding.measured_uncertainty = ohms.excess.standard_uncertainty();
  finding.limits.upper = in_ohms(ohms.limit);
  tell(finding, "measured", *finding.measured);
  tell(finding, "limit", *finding.limits.upper);
  tell(finding, "doubt", in_ohms(ohms.doubt));
  if (cleared_by_nothing) return;  // what cannot clear must not enter the joint probability
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = ohms.p.within;
  finding.judged = ohms.excess;
  finding.judged_lower = -infinity;
  finding.judged_upper = 0.0;
}

void judge_by_drop(const Scene& scene) {
  const DropSeen& drop = *scene.drop;
  if (drop.less_than_copper) {
    Finding& finding = scene.findings.add(end_to_end, Outcome::undecided, less_than_copper);
    tell(finding, "measured", in_ohms(drop.ohms()));
    tell(finding, "copper", in_ohms(drop.copper));
    return;
  }
  Text text = drop_unsure;
  if (drop.outcome == Outcome::within_limits) text = drop_within;
  if (drop.outcome == Outcome::out_of_limits) text = drop_high;
  Finding& finding = scene.findings.add(end_to_end, drop.outcome, text);
  finding.measured = in_ohms(drop.ohms());
  finding.measured_uncertainty = drop.excess.standard_uncertainty() / drop.ampere;
  finding.limits.upper = in_ohms(drop.limit);
  tell(finding, "measured", *finding.measured);
  tell(finding, "limit", *finding.limits.upper);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = drop.p.within;
  finding.judged = drop.excess;
  finding.judged_lower = -infinity;
  finding.judged_upper = 0.0;
}

void say_contradiction(const Scene& scene) {
  Finding& finding = scene.findings.add(end_to_end, Outcome::undecided, contradicting);
  tell(finding, "measured", in_ohms(scene.ohms->value()));
  tell(finding, "by_drop", in_ohms(scene.drop->ohms()));
}

/// A drop under load goes before ohms, which a meter reads with a current that no corrosion minds.
bool drop_speaks(const Scene& scene) {
  if (!scene.drop) return false;
  if (scene.drop->less_than_copper) return !scene.ohms;
  return scene.drop->outcome != Outcome::undecided || !scene.ohms || scene.ohms->outcome != Outcome::out_of_limits;
}

}  // namespace

RuleDescriptor describe_end_to_end() {
  return {
      "end-to-end",
      OHMWRIGHT_TEXT("Ohms from end to end"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "IEC 60228 (maximum resistance of conductors at 20 degC) and 0.00393 /K of copper, and the contact resistance "
      "that "
      "the ratings state; JCGM 106:2012 (conformance probability)",
      {
          {"ohms-within", OHMWRIGHT_TEXT("It has {measured} from end to end; a good one has {limit} at most.")},
          {"ohms-high",
           OHMWRIGHT_TEXT("It has {measured} from end to end, and a good one has {limit} at most: a crimp, a joint or "
                          "broken strands.")},
          {"ohms-unsure",
           OHMWRIGHT_TEXT("It has {measured} from end to end, and a good one has {limit} at most: with this meter too "
                          "near to tell.")},
          {"below-the-leads",
           OHMWRIGHT_TEXT("It is not open, and more cannot be told: a good one has {limit} at most, and meter and test "
                          "leads leave {doubt} open. The volts across it under load tell.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT("It reads {measured}, and a good one has {limit} at most, but it was not said whether one of "
                          "its ends was off: another path beside it may be what was read.")},
          {"drop-within",
           OHMWRIGHT_TEXT(
               "By its volts under load it has {measured} from end to end; a good one has {limit} at most.")},
          {"drop-high",
           OHMWRIGHT_TEXT("By its volts under load it has {measured} from end to end, and a good one has {limit} at "
                          "most: a crimp, a joint or broken strands.")},
          {"drop-unsure",
           OHMWRIGHT_TEXT("By its volts under load it has {measured} from end to end, and a good one has {limit} at "
                          "most: with these instruments too near to tell.")},
          {"less-than-copper",
           OHMWRIGHT_TEXT(
               "By its volts under load it has {measured}, less than the {copper} that copper of this length "
               "has by itself: the clips were not across all of it, the clamp held other wires too, or its "
               "length or cross-section is another.")},
          {"contradicting",
           OHMWRIGHT_TEXT(
               "The meter reads {measured}, but by its volts under load it has only {by_drop}: the probes sat "
               "badly, or the joint comes and goes.")},
          {"disagreeing",
           OHMWRIGHT_TEXT("No single figure is its resistance: the readings do not agree with each other.")},
          {"only-continuity",
           OHMWRIGHT_TEXT("It is not open. A buzzer sounds up to tens of ohms, so it says nothing of a bad joint.")},
          {"high-without-ratings",
           OHMWRIGHT_TEXT("It reads {measured}, where no sound wiring of an appliance has more than {most}. It looks "
                          "bad; name its ratings to decide it.")},
          {"no-ratings",
           OHMWRIGHT_TEXT(
               "Nothing is known of this one, so only an open one and a leak can be told: name its ratings.")},
          {"no-length", OHMWRIGHT_TEXT("Not judged: how long the lead is decides what it may have (--length 1.5m).")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: neither its ohms nor the volts across it under load were read.")},
          {"drop-leaves-open",
           OHMWRIGHT_TEXT("Not judged: its ohms were not read, and the volts across it do not tell them yet.")},
          {"only-in-circuit", OHMWRIGHT_TEXT("Not judged: its ohms were read in circuit only, where other paths lie "
                                             "beside it.")},
          {"only-live",
           OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again.")},
      }};
}

void judge_end_to_end(const Scene& scene) {
  if (scene.comes_and_goes())
    scene.findings.add(end_to_end, Outcome::undecided, disagreeing);
  else if (drop_speaks(scene) && scene.ohms && scene.ohms->outcome == Outcome::out_of_limits &&
           scene.drop->outcome == Outcome::within_limits && !scene.drop->less_than_copper)
    say_contradiction(scene);
  else if (drop_speaks(scene))
    judge_by_drop(scene);
  else if (only_said_closed(scene))
    scene.findings.add(end_to_end, Outcome::undecided, only_continuity);
  else if (!scene.knows_limit())
    say_without_limit(scene);
  else if (scene.ohms)
    judge_by_ohms(scene);
  else
    scene.findings.add(end_to_end, Outcome::silent, why_silent(scene));
}

}  // namespace ohmwright::wiring
