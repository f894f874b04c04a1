#include "rules/line_current.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "rules/turns_by_hand.hpp"

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  right_current,
  right_but_may_be_blocked,
  too_much,
  too_much_perhaps_held,
  too_little,
  unsure,
  jumping,
  needed_and_not_read,
  no_rated_current,
  no_reading,
  not_live
};

}  // namespace

RuleDescriptor describe_line_current() {
  return {
      "line-current",
      OHMWRIGHT_TEXT("Current when it runs"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "the rated current with its tolerance; 15 % where none is stated: common practice, no source",
      {
          {"right-current", OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper}.")},
          {"right-but-may-be-blocked",
           OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper}. A shaded-pole motor draws little "
                          "more when it is blocked, so look that it turns.")},
          {"too-much",
           OHMWRIGHT_TEXT(
               "It draws {measured}; a good one draws {lower} to {upper}. Shorted turns or a dragging bearing "
               "draw so.")},
          {"too-much-perhaps-held",
           OHMWRIGHT_TEXT(
               "It draws {measured}; a good one draws {lower} to {upper}. But one whose wheel is held, by ice or "
               "by its bearing, draws so as well: first see it turn.")},
          {"too-little",
           OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper}. Its wheel is loose, the air is "
                          "blocked, a winding is open, or it gets too few volts.")},
          {"unsure",
           OHMWRIGHT_TEXT(
               "It draws {measured}; a good one draws {lower} to {upper}: with this instrument too near to an "
               "end to tell.")},
          {"jumping",
           OHMWRIGHT_TEXT(
               "What it draws jumps by about {scatter_percent} %, so its mean says nothing: its feed comes and "
               "goes, or something holds its wheel at times.")},
          {"needed-and-not-read",
           OHMWRIGHT_TEXT(
               "It turns as it should; what it draws was not read, and only that clears its winding of shorted "
               "turns.")},
          {"no-rated-current", OHMWRIGHT_TEXT("Not judged: what it should draw is not known.")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: what it draws was not read.")},
          {"not-live", OHMWRIGHT_TEXT("Not judged: what it draws has to be read while it runs.")},
      }};
}

namespace {

/// It was seen turning right, it is wound, and what it should draw is known.
bool is_needed(const Scene& scene) {
  if (scene.ratings == nullptr || scene.ratings->is_electronic() || !scene.ratings->current) return false;
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [](const Finding& finding) {
    return finding.rule == running && finding.outcome == Outcome::within_limits;
  });
}

}  // namespace

void judge_line_current(const Scene& scene) {
  const PreparedReading* reading = last_value(scene.evidence, current);
  if (reading == nullptr || !is_live(*reading) || scene.ratings == nullptr || !scene.ratings->current) {
    if (reading == nullptr && is_needed(scene)) {
      scene.findings.add(line_current, Outcome::undecided, needed_and_not_read).holds_back = true;
      return;
    }
    const Text text = reading == nullptr ? no_reading : !is_live(*reading) ? not_live : no_rated_current;
    scene.findings.add(line_current, Outcome::silent, text);
    return;
  }
  if (repeats_jump(scene.evidence, *reading)) {
    Finding& finding = scene.findings.add(line_current, Outcome::undecided, jumping);
    finding.holds_back = true;
    tell(finding, "scatter_percent", std::round(100.0 * relative_scatter(scene.evidence, *reading)));
    return;
  }
  const double rated = scene.ratings->current->value();
  const double lower = rated * (1.0 - scene.ratings->current_tolerance);
  const double upper = rated * (1.0 + scene.ratings->current_tolerance);
  const Conformance p = conformance_of(reading->value, scene.evidence.sources(), lower, upper);
  const Outcome outcome = decide(p, scene.settings.confidence);
  const bool blind = scene.ratings->construction == Construction::shaded_pole && !scene.turning;
  Text text = unsure;
  if (outcome == Outcome::within_limits) text = blind ? right_but_may_be_blocked : right_current;
  if (outcome == Outcome::out_of_limits) text = reading->value.value() > upper ? too_much : too_little;
  if (text == too_much && may_be_held(scene)) text = too_much_perhaps_held;
  const bool settled = text != too_much_perhaps_held;
  Finding& finding = scene.findings.add(line_current, settled ? outcome : Outcome::undecided, text);
  finding.holds_back = finding.outcome == Outcome::undecided;  // it alone tells shorted turns
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.measured = amperes(reading->value.value());
  finding.measured_uncertainty = reading->value.standard_uncertainty();
  finding.limits.lower = amperes(lower);
  finding.limits.upper = amperes(upper);
  if (settled) {
    finding.judged = reading->value;
    finding.judged_lower = lower;
    finding.judged_upper = upper;
  }
  tell(finding, "measured", *finding.measured);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
}

}  // namespace ohmwright::fan_motor
