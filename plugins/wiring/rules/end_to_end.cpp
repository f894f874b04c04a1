#include "rules/end_to_end.hpp"

#include <algorithm>
#include <limits>

#include "rules/end_to_end_texts.hpp"

namespace ohmwright::wiring {

namespace {

using Text = EndToEndText;

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
  if (ohms.below_zero) return less_than_leads;
  if (ohms.drowns_in_leads()) return below_the_leads;
  if (ohms.less_than_copper) return fewer_than_copper;
  if (ohms.outcome == Outcome::undecided) return ohms_unsure;
  return ohms.stated_off ? ohms_within : connection_unstated;
}

void judge_by_ohms(const Scene& scene) {
  const OhmsSeen& ohms = *scene.ohms;
  const Text text = text_of_ohms(ohms);
  const bool cleared_by_nothing = ohms.implausible() || text == below_the_leads || text == connection_unstated;
  Finding& finding = scene.findings.add(end_to_end, cleared_by_nothing ? Outcome::undecided : ohms.outcome, text);
  finding.measured = in_ohms(ohms.value());
  finding.measured_uncertainty = ohms.excess.standard_uncertainty();
  finding.limits.upper = in_ohms(ohms.limit);
  tell(finding, "measured", *finding.measured);
  tell(finding, "limit", *finding.limits.upper);
  tell(finding, "doubt", in_ohms(ohms.doubt));
  tell(finding, "copper", in_ohms(ohms.copper));
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
