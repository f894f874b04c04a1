#include "rules/running.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "rules/turns_by_hand.hpp"

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  turns_right,
  turns_slow,
  turns_slow_perhaps_held,
  turns_slow_volts_unknown,
  turns_slow_volts_low,
  turns_fast,
  turns_unsure,
  draws_right,
  draws_wrong,
  draws_much_perhaps_held,
  draws_unsure,
  jumping,
  stands_still,
  speed_unknown,
  pulses_unknown,
  no_ratings,
  not_run,
  tach_silent,
  tach_silent_while_turning,
  tach_while_still,
  tach_another_speed,
  turns_wrong_perhaps_pulses,
};

/// Below this share of its rated volts a motor may turn slow and be good (common practice, no source).
constexpr double least_volts_share = 0.9;

/// Too slow condemns only where it got its volts.
Text text_when_slow(const Scene& scene) {
  const PreparedReading* fed = last_value(scene.evidence, supply);
  if (fed == nullptr || !is_live(*fed) || !scene.ratings->voltage) return turns_slow_volts_unknown;
  const bool low = std::abs(fed->value.value()) < least_volts_share * scene.ratings->voltage->value();
  if (low) return turns_slow_volts_low;
  return may_be_held(scene) ? turns_slow_perhaps_held : turns_slow;
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

void judge_speed(const Scene& scene, Span limits) {
  const Estimate& seen = scene.turning->speed;
  const Conformance p = conformance_of(seen, scene.evidence.sources(), limits.lower, limits.upper);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = turns_unsure;
  if (outcome == Outcome::within_limits) text = turns_right;
  if (outcome == Outcome::out_of_limits) text = seen.value() < limits.lower ? text_when_slow(scene) : turns_fast;
  const std::optional<int> perhaps = outcome == Outcome::out_of_limits ? other_pulses(scene, limits) : std::nullopt;
  if (perhaps) text = turns_wrong_perhaps_pulses;
  const bool settled = text != turns_slow_volts_unknown && text != turns_slow_volts_low &&
                       text != turns_slow_perhaps_held && text != turns_wrong_perhaps_pulses;
  Finding& finding = scene.findings.add(running, settled ? outcome : Outcome::undecided, text);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.measured = turns(seen.value());
  finding.measured_uncertainty = seen.standard_uncertainty();
  finding.limits.lower = turns(limits.lower);
  finding.limits.upper = turns(limits.upper);
  if (settled) {
    finding.judged = seen;
    finding.judged_lower = limits.lower;
    finding.judged_upper = limits.upper;
  }
  tell(finding, "measured", *finding.measured);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
  if (perhaps) {
    tell(finding, "pulses", static_cast<double>(*scene.ratings->pulses_per_turn));
    tell(finding, "others", static_cast<double>(*perhaps));
  }
  if (const auto fastest = scene.ratings->synchronous())
    tell(finding, "slip_percent", 100.0 * (1.0 - seen.value() / fastest->value()));
}

/// A shaded-pole motor draws little more when it is blocked, so its current does not say that it turns.
bool current_tells_running(const FanMotorRatings& ratings) {
  return ratings.construction != Construction::shaded_pole && ratings.current.has_value();
}

void judge_by_current(const Scene& scene, const PreparedReading& reading) {
  const double rated = scene.ratings->current->value();
  const double lower = rated * (1.0 - scene.ratings->current_tolerance);
  const double upper = rated * (1.0 + scene.ratings->current_tolerance);
  const Conformance p = conformance_of(reading.value, scene.evidence.sources(), lower, upper);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = draws_unsure;
  if (outcome == Outcome::within_limits) text = draws_right;
  if (outcome == Outcome::out_of_limits) text = draws_wrong;
  if (text == draws_wrong && reading.value.value() > upper && may_be_held(scene)) text = draws_much_perhaps_held;
  const bool settled = text != draws_much_perhaps_held;
  Finding& finding = scene.findings.add(running, settled ? outcome : Outcome::undecided, text);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.measured = amperes(reading.value.value());
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  finding.limits.lower = amperes(lower);
  finding.limits.upper = amperes(upper);
  if (settled) {
    finding.judged = reading.value;
    finding.judged_lower = lower;
    finding.judged_upper = upper;
  }
  tell(finding, "measured", *finding.measured);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
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

RuleDescriptor describe_running() {
  return {
      "running",
      OHMWRIGHT_TEXT("How it runs"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "n = 120 f/p*(1 - s); slip up to 20 % (shaded pole) and 10 % (capacitor run): common practice, no source",
      {
          {"turns-right", OHMWRIGHT_TEXT("It turns at {measured}; a good one turns at {lower} to {upper}.")},
          {"turns-slow",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. It gets its volts, so a dragging "
               "bearing, shorted turns or something at its wheel holds it back.")},
          {"turns-slow-perhaps-held",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. But flicked by hand it stops at "
               "once, and one that ice holds is slow as well: thaw it first.")},
          {"turns-slow-volts-unknown",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. Whether it gets its volts was "
               "not read: with too few a good one is slow as well.")},
          {"turns-slow-volts-low",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. But it gets too few volts, and "
               "with those a good one is slow as well: look before it.")},
          {"turns-fast",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}. Its wheel is loose or off, it "
               "is another motor, or the blades were counted for turns.")},
          {"turns-unsure",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; a good one turns at {lower} to {upper}: too near to an end to tell.")},
          {"draws-right",
           OHMWRIGHT_TEXT("Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its "
                          "fan.")},
          {"draws-wrong",
           OHMWRIGHT_TEXT("Judged by what it draws: {measured}, and a good one draws {lower} to {upper} under its "
                          "fan.")},
          {"draws-much-perhaps-held",
           OHMWRIGHT_TEXT(
               "It draws {measured}, and a good one draws {lower} to {upper}. But one whose wheel is held, by ice "
               "or by its bearing, draws so as well: first see it turn.")},
          {"draws-unsure",
           OHMWRIGHT_TEXT("Judged by what it draws: {measured}, and a good one draws {lower} to {upper}: with this "
                          "instrument too near to an end to tell.")},
          {"jumping",
           OHMWRIGHT_TEXT(
               "How it runs was read more than once, and the readings jump by about {scatter_percent} %: their "
               "mean says nothing. Its feed comes and goes, or something holds its wheel at times.")},
          {"stands-still", OHMWRIGHT_TEXT("It stands still. Whether it should turn is said by the volts at its plug.")},
          {"speed-unknown",
           OHMWRIGHT_TEXT(
               "It turns at {measured}; how fast it should turn is not known: the ratings state neither speed "
               "nor poles and frequency.")},
          {"pulses-unknown",
           OHMWRIGHT_TEXT("Its tachometer gives pulses, but how many a turn is not known: they show that it turns, not "
                          "how fast.")},
          {"no-ratings",
           OHMWRIGHT_TEXT(
               "Nothing is known of this motor, so only open, shorted, blocked and leaking can be told: name "
               "its ratings.")},
          {"not-run", OHMWRIGHT_TEXT("Not judged: it was not seen running.")},
          {"tach-silent",
           OHMWRIGHT_TEXT(
               "Its tachometer gives no pulses. That does not say that it stands still: without supply and pull-up, on "
               "a wrong pin or a broken lead there are none either. Whether it turns was not said.")},
          {"tach-silent-while-turning",
           OHMWRIGHT_TEXT(
               "It turns at {measured}, and its tachometer gives no pulses: the tachometer, its lead or its pull-up is "
               "at fault, or a wrong pin was read. A control that counts pulses takes it for a fan that stands.")},
          {"tach-while-still",
           OHMWRIGHT_TEXT(
               "It stands still, and its tachometer gives pulses: a wrong pin was read, or the meter counts what the "
               "supply is pulsed with.")},
          {"tach-another-speed",
           OHMWRIGHT_TEXT(
               "It turns at {measured}, and by its tachometer it would turn at {by_tach}: the pulses a turn are not as "
               "rated, a wrong pin was read, or the blades were counted for turns.")},
          {"turns-wrong-perhaps-pulses",
           OHMWRIGHT_TEXT(
               "By its tachometer it turns at {measured}; a good one turns at {lower} to {upper}. That stands on "
               "{pulses} pulses a turn: with {others} it would be right, so see its speed itself.")},
      }};
}

void judge_running(const Scene& scene) {
  if (const PreparedReading* reading = judged_by(scene); reading != nullptr && repeats_jump(scene.evidence, *reading)) {
    Finding& finding = scene.findings.add(running, Outcome::undecided, jumping);
    finding.holds_back = true;
    tell(finding, "scatter_percent", std::round(100.0 * relative_scatter(scene.evidence, *reading)));
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
    const std::optional<Span> limits = scene.ratings->speed_limits();
    if (limits)
      judge_speed(scene, *limits);
    else
      say(scene, Outcome::undecided, speed_unknown);
    return;
  }
  const PreparedReading* drawn = last_value(scene.evidence, current);
  if (drawn != nullptr && is_live(*drawn) && current_tells_running(*scene.ratings)) {
    judge_by_current(scene, *drawn);
    return;
  }
  const bool pulses = last_value(scene.evidence, tach) != nullptr;
  scene.findings.add(running, pulses ? Outcome::undecided : Outcome::silent, pulses ? pulses_unknown : not_run);
}

}  // namespace ohmwright::fan_motor
