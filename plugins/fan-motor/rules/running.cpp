#include "rules/running.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include <ohmwright/component/measured.hpp>
#include <ohmwright/component/repeated_readings.hpp>

#include "rules/capacitor.hpp"
#include "rules/drawn_current.hpp"
#include "rules/fed_but_still.hpp"
#include "rules/running_texts.hpp"
#include "rules/turns_by_hand.hpp"

namespace ohmwright::fan_motor {

namespace {

using Text = RunningText;

/// One with a wire for a control signal turns as slowly as that tells it to.
bool may_be_told_to_turn_slowly(const Scene& scene) {
  return scene.ratings->may_have_a_signal() && signal_told(scene) != signal_says_run;
}

/// Too slow condemns only where it got its volts, its wheel is free and nothing told it to turn so.
Text text_when_slow(const Scene& scene) {
  if (scene.plug.level == VoltsLevel::unknown) return turns_slow_volts_unknown;
  if (scene.plug.are_low()) return scene.is_electronic() ? turns_slow_perhaps_pulsed : turns_slow_volts_low;
  if (may_be_held(scene)) return turns_freely(scene).has_value() ? turns_slow_perhaps_held : turns_slow_wheel_unknown;
  if (may_be_its_capacitor(scene)) return turns_slow_perhaps_capacitor;
  return may_be_told_to_turn_slowly(scene) ? turns_slow_perhaps_told : turns_slow;
}

/// The number of blades by which what was read, each blade counted, would be the speed of a good one.
std::optional<int> counted_blades(const Scene& scene, Span limits) {
  constexpr std::array usual{2, 3, 4, 5, 6, 7};  // common practice, no source
  if (scene.turning->reading->measurand != speed) return std::nullopt;
  for (const int blades : usual)
    if (scene.turning->speed.value() / blades >= limits.lower && scene.turning->speed.value() / blades <= limits.upper)
      return blades;
  return std::nullopt;
}

/// No induction motor turns faster than the field that drags it: 120 f/p.
bool is_past_synchronous(const Scene& scene) {
  const auto fastest = scene.synchronous();
  return fastest && scene.turning->speed.value() > fastest->value();
}

/// An electronic motor turns faster with more volts, an induction motor hardly does. Each does without its load.
Text text_when_fast(const Scene& scene, Span limits) {
  if (is_past_synchronous(scene)) return turns_past_synchronous;
  if (counted_blades(scene, limits)) return turns_fast_perhaps_blades;
  if (!scene.is_electronic() || scene.plug.level == VoltsLevel::right)
    return is_said_clear(scene) ? turns_fast : turns_fast_perhaps_air;
  if (scene.plug.level == VoltsLevel::unknown) return turns_fast_volts_unknown;
  return scene.plug.are_low() ? turns_without_volts : turns_fast_volts_high;
}

Text text_when_right(const Scene& scene) {
  if (scene.plug.level == VoltsLevel::far_too_low) return turns_without_volts;
  if (scene.plug.level == VoltsLevel::low) return turns_right_volts_low;
  return scene.other_frequency ? turns_right_other_frequency : turns_right;
}

/// Pulses a turn with which what the tachometer gave would be the speed of a good one; nothing where none of the usual
/// ones would do, or where the speed was seen.
std::optional<int> other_pulses(const Scene& scene, Span limits) {
  constexpr std::array usual{1, 2, 3, 4, 6};  // common practice, no source
  if (scene.turning->reading->measurand != tach) return std::nullopt;
  const double each = scene.turning->speed.value() * *scene.ratings->pulses_per_turn;
  for (const int pulses : usual)
    if (each / pulses >= limits.lower && each / pulses <= limits.upper) return pulses;
  return std::nullopt;
}

Text text_of_speed(const Scene& scene, const Measured& seen, Span limits) {
  if (seen.outcome == Outcome::within_limits) return text_when_right(scene);
  if (seen.outcome != Outcome::out_of_limits) return turns_unsure;
  if (scene.other_frequency) return is_past_synchronous(scene) ? turns_past_synchronous : turns_wrong_other_frequency;
  if (other_pulses(scene, limits)) return turns_wrong_perhaps_pulses;
  return seen.is_low() ? text_when_slow(scene) : text_when_fast(scene, limits);
}

bool is_settled(Text text) {
  return text == turns_right || text == turns_right_volts_low || text == turns_right_other_frequency ||
         text == turns_slow || text == turns_fast || text == turns_unsure;
}

void judge_speed(const Scene& scene, Span limits) {
  const Measured seen = measure(scene.turning->speed, limits.lower, limits.upper, Dimension::rotational_speed,
                                scene.evidence, scene.settings);
  const Text text = text_of_speed(scene, seen, limits);
  Finding& finding = add_measured(scene.findings, running, text, seen, is_settled(text));
  if (text == turns_wrong_perhaps_pulses) {
    tell(finding, "pulses", static_cast<double>(*scene.ratings->pulses_per_turn));
    tell(finding, "others", static_cast<double>(*other_pulses(scene, limits)));
  } else if (text == turns_fast_perhaps_blades) {
    tell(finding, "blades", static_cast<double>(*counted_blades(scene, limits)));
  } else if (text == turns_past_synchronous) {
    tell(finding, "poles", static_cast<double>(*scene.ratings->poles));
    tell(finding, "frequency", AnyQuantity(scene.other_frequency.value_or(*scene.ratings->frequency)));
  } else {
    tell_volts(scene, finding);
    tell_frequencies(scene, finding);
  }
  if (const auto fastest = scene.synchronous()) {
    tell(finding, "fastest", AnyQuantity(*fastest));
    tell(finding, "slip_percent", 100.0 * (1.0 - seen.value.value() / fastest->value()));
  }
}

/// A direct-current fan turns as fast as its volts let it, unless it is regulated (common practice, no source).
Span at_its_volts(const Scene& scene, Span limits) {
  if (!scene.is_electronic() || scene.plug.level != VoltsLevel::right) return limits;
  return {limits.lower * std::min(1.0, scene.plug.share), limits.upper * std::max(1.0, scene.plug.share)};
}

/// A shaded-pole motor draws little more when it is blocked, so its current does not say that it turns.
bool current_tells_running(const FanMotorRatings& ratings) {
  return ratings.construction != Construction::shaded_pole && ratings.current.has_value();
}

Text text_of_draw(Drawn says) {
  switch (says) {
    case Drawn::right:
      return draws_right;
    case Drawn::too_much:
    case Drawn::too_little:
      return draws_wrong;
    case Drawn::too_much_perhaps_held:
      return draws_much_perhaps_held;
    case Drawn::too_much_volts_unknown:
      return draws_much_volts_unknown;
    case Drawn::too_much_perhaps_capacitor:
      return draws_much_perhaps_capacitor;
    case Drawn::too_little_perhaps_air:
      return draws_little_perhaps_air;
    case Drawn::too_little_volts_unknown:
      return draws_little_volts_unknown;
    case Drawn::right_at_other_volts:
    case Drawn::too_much_at_other_volts:
    case Drawn::too_little_at_low_volts:
      return draws_at_other_volts;
    case Drawn::at_other_frequency:
      return draws_at_other_frequency;
    case Drawn::unsure:
      return draws_unsure;
  }
  return draws_unsure;
}

void judge_by_current(const Scene& scene, const PreparedReading& reading) {
  const DrawnCurrent drawn = drawn_current(scene, reading);
  const bool perhaps_still = drawn.says == Drawn::right && !is_seen_turning(scene);
  const Text text = perhaps_still ? draws_right_perhaps_still : text_of_draw(drawn.says);
  Finding& finding = add_measured(scene.findings, running, text, drawn.measured, drawn.settled() && !perhaps_still);
  if (perhaps_still) finding.holds_back = true;
  tell_volts(scene, finding);
  tell_frequencies(scene, finding);
}

/// What it is judged by: its speed, else what it draws.
const PreparedReading* judged_by(const Scene& scene) {
  return scene.turning ? scene.turning->reading : last_value(scene.evidence, current);
}

Finding& say(const Scene& scene, Outcome outcome, Text text) {
  Finding& finding = scene.findings.add(running, outcome, text);
  if (scene.turning) tell(finding, "measured", turns(scene.turning->speed.value()));
  return finding;
}

/// Neither passes it nor condemns it: which of the two is wrong is to be found.
void say_what_tach_says(const Scene& scene) {
  Text text = tach_silent;
  if (scene.tach_says == TachSays::silent_while_turning) text = tach_silent_while_turning;
  if (scene.tach_says == TachSays::pulses_while_still) text = tach_while_still;
  if (scene.tach_says == TachSays::another_speed) text = tach_another_speed;
  Finding& finding = say(scene, Outcome::undecided, text);
  finding.holds_back = true;
  if (text != tach_another_speed) return;
  const double pulses = last_value(scene.evidence, tach)->value.value();
  tell(finding, "by_tach", turns(2.0 * std::numbers::pi * pulses / *scene.ratings->pulses_per_turn));
}

}  // namespace

bool turns_too_slowly(const Scene& scene) {
  if (!scene.turning || scene.stands_still()) return false;
  const std::optional<Span> limits = scene.speed_limits();
  return limits && scene.turning->speed.value() < at_its_volts(scene, *limits).lower;
}

bool speed_may_be_misread(const Scene& scene) {
  if (!scene.turning || scene.turning->reading->measurand != speed) return false;
  const std::optional<Span> limits = scene.speed_limits();
  return limits && scene.turning->speed.value() > limits->upper &&
         (is_past_synchronous(scene) || counted_blades(scene, *limits));
}

void judge_running(const Scene& scene) {
  if (scene.plug.are_far_too_high()) {
    scene.findings.add(running, Outcome::silent, too_many_volts);
    return;
  }
  if (const PreparedReading* reading = judged_by(scene); reading != nullptr && repeats_jump(scene.evidence, *reading)) {
    Finding& finding = scene.findings.add(running, Outcome::undecided, jumping);
    finding.holds_back = true;
    tell(finding, "scatter_percent", std::round(100.0 * relative_scatter(scene.evidence, *reading)));
    return;
  }
  if (scene.turns_by_a_minus()) {
    say(scene, Outcome::undecided, turns_by_a_minus).holds_back = true;
    return;
  }
  if (scene.tach_says != TachSays::nothing_else) {
    say_what_tach_says(scene);
    return;
  }
  if (scene.stands_still()) {
    say(scene, Outcome::undecided, stands_still).holds_back = true;
    return;
  }
  if (scene.ratings == nullptr) {
    scene.findings.add(running, Outcome::silent, no_ratings);
    return;
  }
  if (scene.turning) {
    if (const std::optional<Span> limits = scene.speed_limits())
      judge_speed(scene, at_its_volts(scene, *limits));
    else
      say(scene, Outcome::undecided, speed_unknown);
    return;
  }
  const PreparedReading* drawn = last_value(scene.evidence, current);
  if (drawn != nullptr && is_live(*drawn) && current_tells_running(*scene.ratings)) {
    judge_by_current(scene, *drawn);
    return;
  }
  if (is_said_turning(scene)) {
    scene.findings.add(running, Outcome::undecided, turns_speed_not_read);
    return;
  }
  const bool pulses = last_value(scene.evidence, tach) != nullptr;
  scene.findings.add(running, pulses ? Outcome::undecided : Outcome::silent, pulses ? pulses_unknown : not_run);
}

}  // namespace ohmwright::fan_motor
