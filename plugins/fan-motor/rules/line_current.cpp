#include "rules/line_current.hpp"

#include <cmath>
#include <optional>

#include <ohmwright/component/repeated_readings.hpp>

#include "rules/drawn_current.hpp"

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
  not_live,
  too_many_volts,
  right_at_other_volts,
  too_much_at_other_volts,
  too_little_volts_unknown,
  too_little_at_low_volts,
  too_little_perhaps_air,
  too_much_volts_unknown,
  too_much_perhaps_capacitor,
  at_other_frequency,
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
               "by its bearing, draws so as well: first see it turn freely.")},
          {"too-little",
           OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper}. Coil, ducts and wheel "
                          "were said to be clear, so a winding is open in part, or its electronics are at fault.")},
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
          {"too-many-volts", OHMWRIGHT_TEXT("Not judged: it gets too many volts.")},
          {"right-at-other-volts",
           OHMWRIGHT_TEXT(
               "It draws {measured}; a good one draws {lower} to {upper} at {rated}. But it gets {volts}, and "
               "what a good one draws there is not known.")},
          {"too-much-at-other-volts",
           OHMWRIGHT_TEXT(
               "It draws {measured}; a good one draws {lower} to {upper} at {rated}. But it gets {volts}, and "
               "with those a good one may draw more as well.")},
          {"too-little-volts-unknown",
           OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper}. Nothing that was read says "
                          "whether it gets its volts: with too few a good one draws less as well.")},
          {"too-little-at-low-volts",
           OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper} at {rated}. But it gets only "
                          "{volts}, and with those a good one draws less as well: look before it.")},
          {"too-little-perhaps-air",
           OHMWRIGHT_TEXT(
               "It draws {measured}; a good one draws {lower} to {upper}. But frost on the coil, blocked ducts "
               "or a loose wheel take its load away, and then a good one draws less as well: that they are "
               "clear was not said.")},
          {"too-much-volts-unknown",
           OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper}. Nothing that was read says how "
                          "many volts it gets: with too many a good one draws more as well.")},
          {"too-much-perhaps-capacitor",
           OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper}. But beside a bad run capacitor a "
                          "good one draws more as well, and its own was not found good.")},
          {"at-other-frequency", OHMWRIGHT_TEXT("It draws {measured}; a good one draws {lower} to {upper} on "
                                                "{made_for}. But it runs on {frequency}, and "
                                                "what a good one draws there is not known.")},
      }};
}

namespace {

/// It was seen turning right, it is wound, and what it should draw is known.
bool is_needed(const Scene& scene) {
  if (scene.ratings == nullptr || scene.ratings->is_electronic() || !scene.ratings->current) return false;
  return scene.findings.has(running, Outcome::within_limits);
}

/// Empty where what it draws can be judged.
std::optional<Text> why_not(const Scene& scene, const PreparedReading* reading) {
  if (reading == nullptr) return no_reading;
  if (!is_live(*reading)) return not_live;
  if (scene.ratings == nullptr || !scene.ratings->current) return no_rated_current;
  return scene.plug.are_far_too_high() ? std::optional(too_many_volts) : std::nullopt;
}

Text text_of(const Scene& scene, Drawn says) {
  const bool blind =
      scene.ratings->construction == Construction::shaded_pole && !scene.turning && !is_said_turning(scene);
  switch (says) {
    case Drawn::right:
      return blind ? right_but_may_be_blocked : right_current;
    case Drawn::right_at_other_volts:
      return right_at_other_volts;
    case Drawn::too_much:
      return too_much;
    case Drawn::too_much_perhaps_held:
      return too_much_perhaps_held;
    case Drawn::too_much_perhaps_capacitor:
      return too_much_perhaps_capacitor;
    case Drawn::too_much_volts_unknown:
      return too_much_volts_unknown;
    case Drawn::too_much_at_other_volts:
      return too_much_at_other_volts;
    case Drawn::too_little:
      return too_little;
    case Drawn::too_little_perhaps_air:
      return too_little_perhaps_air;
    case Drawn::too_little_volts_unknown:
      return too_little_volts_unknown;
    case Drawn::too_little_at_low_volts:
      return too_little_at_low_volts;
    case Drawn::at_other_frequency:
      return at_other_frequency;
    case Drawn::unsure:
      return unsure;
  }
  return unsure;
}

}  // namespace

bool draws_as_beside_a_bad_capacitor(const Scene& scene) {
  return scene.findings.has_text(line_current, too_much_perhaps_capacitor);
}

void judge_line_current(const Scene& scene) {
  const PreparedReading* reading = last_value(scene.evidence, current);
  if (const std::optional<Text> why = why_not(scene, reading)) {
    if (why == no_reading && is_needed(scene))
      scene.findings.add(line_current, Outcome::undecided, needed_and_not_read).holds_back = true;
    else
      scene.findings.add(line_current, Outcome::silent, *why);
    return;
  }
  if (repeats_jump(scene.evidence, *reading)) {
    Finding& finding = scene.findings.add(line_current, Outcome::undecided, jumping);
    finding.holds_back = true;
    tell(finding, "scatter_percent", std::round(100.0 * relative_scatter(scene.evidence, *reading)));
    return;
  }
  const DrawnCurrent drawn = drawn_current(scene, *reading);
  Finding& finding =
      add_measured(scene.findings, line_current, text_of(scene, drawn.says), drawn.measured, drawn.settled());
  finding.holds_back = finding.outcome == Outcome::undecided;  // it alone tells shorted turns
  tell_volts(scene, finding);
  tell_frequencies(scene, finding);
}

}  // namespace ohmwright::fan_motor
