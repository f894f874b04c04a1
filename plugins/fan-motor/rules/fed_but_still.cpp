#include "rules/fed_but_still.hpp"

#include <algorithm>
#include <cmath>

#include "rules/turns_by_hand.hpp"

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  dead,
  blocked,
  not_spun,
  retry_not_watched,
  not_fed,
  not_fed_perhaps_pulsed,
  not_seen,
  it_turns,
  no_volts,
  not_live,
  pulses_contradict,
};

/// Of its rated volts it is fed; where nothing is known of it, these volts.
constexpr double fed_share = 0.5;
constexpr double fed_volt = 5.0;

bool is_fed(const Scene& scene, const PreparedReading& reading) {
  const bool rated = scene.ratings != nullptr && scene.ratings->voltage;
  return std::abs(reading.value.value()) >= (rated ? fed_share * scene.ratings->voltage->value() : fed_volt);
}

/// What was watched for longest [s].
double watched_seconds(const Scene& scene) {
  double longest = 0.0;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (const Estimate* time = reading.condition(watched)) longest = std::max(longest, time->value());
  return longest;
}

/// A control may feed a direct-current fan in tries, and rest between them.
bool needs_a_retry(const Scene& scene) {
  return scene.is_electronic() && watched_seconds(scene) < scene.ratings->retry.value();
}

Text text_when_still(const Scene& scene) {
  if (needs_a_retry(scene)) return retry_not_watched;
  const std::optional<bool> free = turns_freely(scene);
  if (!free) return not_spun;
  return *free ? dead : blocked;
}

}  // namespace

RuleDescriptor describe_fed_but_still() {
  return {
      "fed-but-still",
      OHMWRIGHT_TEXT("Volts at its plug, and it stands still"),
      false,
      can_condemn | can_be_undecided,
      "common practice, no source: a motor that is fed and free, and stands still, is at fault",
      {
          {"dead",
           OHMWRIGHT_TEXT("There are {volts} at its plug, its wheel is free, and it stands still: the motor is dead.")},
          {"blocked",
           OHMWRIGHT_TEXT(
               "There are {volts} at its plug and it stands still, but its wheel does not turn by hand: it is "
               "blocked, by ice or by its bearing, and that comes first.")},
          {"not-spun",
           OHMWRIGHT_TEXT(
               "There are {volts} at its plug and it stands still. Whether its wheel is free was not said.")},
          {"retry-not-watched",
           OHMWRIGHT_TEXT(
               "There are {volts} at its plug and it stands still, but a control may feed such a fan in tries "
               "and rest between them: it was not watched through one ({retry}).")},
          {"not-fed",
           OHMWRIGHT_TEXT("There are only {volts} at its plug: it is not fed. Look before it, at control, door switch, "
                          "fuse and wiring.")},
          {"not-fed-perhaps-pulsed",
           OHMWRIGHT_TEXT(
               "The meter shows only {volts} at its plug. A control that feeds it in pulses, or in tries, fools "
               "a direct-voltage range: read it over a whole try, with the range that holds its highest.")},
          {"not-seen",
           OHMWRIGHT_TEXT("There are {volts} at its plug; whether it turns was not said (speed=0rpm, or its speed).")},
          {"it-turns", OHMWRIGHT_TEXT("Not asked: it turns.")},
          {"no-volts", OHMWRIGHT_TEXT("Not judged: the volts at its plug were not read.")},
          {"not-live", OHMWRIGHT_TEXT("Not judged: the volts have to be read while it should run.")},
          {"pulses-contradict",
           OHMWRIGHT_TEXT(
               "There are {volts} at its plug and it is said to stand still, but its tachometer gives pulses: one of "
               "the two is not so.")},
      }};
}

void judge_fed_but_still(const Scene& scene) {
  const PreparedReading* reading = last_value(scene.evidence, supply);
  const bool turns_now = scene.turning && !scene.stands_still();
  if (reading == nullptr || !is_live(*reading) || turns_now) {
    const Text text = reading == nullptr ? no_volts : turns_now ? it_turns : not_live;
    scene.findings.add(fed_but_still, Outcome::silent, text);
    return;
  }
  Text text = scene.turning ? text_when_still(scene) : not_seen;
  if (scene.tach_says == TachSays::pulses_while_still) text = pulses_contradict;
  if (!is_fed(scene, *reading)) text = scene.is_electronic() ? not_fed_perhaps_pulsed : not_fed;
  Finding& finding =
      scene.findings.add(fed_but_still, text == dead ? Outcome::out_of_limits : Outcome::undecided, text);
  if (text == dead) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  tell(finding, "volts", volts(reading->displayed));
  if (scene.ratings != nullptr) tell(finding, "retry", AnyQuantity(scene.ratings->retry));
}

}  // namespace ohmwright::fan_motor
