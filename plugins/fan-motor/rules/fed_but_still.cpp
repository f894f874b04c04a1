#include "rules/fed_but_still.hpp"

#include <algorithm>

#include "rules/capacitor.hpp"
#include "rules/line_current.hpp"
#include "rules/running_texts.hpp"
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
  too_few_to_tell,
  too_many_volts,
  signal_not_read,
  told_to_stand,
  perhaps_protector_of_fed,
  minus_at_its_plug,
  volts_contradict,
  perhaps_capacitor,
};

/// What was watched for longest [s].
double watched_seconds(const Scene& scene) {
  double longest = 0.0;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (const Estimate* time = reading.condition(watched)) longest = std::max(longest, time->value());
  return longest;
}

/// A protector on the mains opens in a motor that ice held, and closes when it has cooled. One of electronics has none.
bool protector_may_be_open(const Scene& scene) {
  return !scene.is_electronic() && !any_of(scene.evidence, is_said_cool);
}

Text text_when_still(const Scene& scene) {
  if (shows_minus(scene)) return minus_at_its_plug;
  if (needs_a_retry(scene)) return retry_not_watched;
  const std::optional<bool> free = turns_freely(scene);
  if (!free) return not_spun;
  if (!*free) return blocked;
  if (signal_told(scene) == signal_says_stop) return told_to_stand;
  if (needs_its_signal(scene)) return signal_not_read;
  if (may_be_its_capacitor(scene)) return perhaps_capacitor;
  return protector_may_be_open(scene) ? perhaps_protector_of_fed : dead;
}

Text text_of_too_few(const Scene& scene) {
  if (scene.is_electronic()) return not_fed_perhaps_pulsed;
  return scene.plug.level == VoltsLevel::low ? too_few_to_tell : not_fed;
}

Text why_not_asked(const Scene& scene, bool turns_now) {
  if (last_value(scene.evidence, supply) == nullptr) return no_volts;
  if (turns_now) return it_turns;
  if (scene.plug.apart) return volts_contradict;
  return scene.plug.are_far_too_high() ? too_many_volts : not_live;
}

}  // namespace

bool shows_minus(const Scene& scene) {
  if (scene.plug.reading == nullptr || (scene.ratings != nullptr && !scene.is_electronic())) return false;
  return scene.plug.feed() && scene.plug.volt < 0.0;
}

bool may_be_hot_while_fed(const Scene& scene) {
  return scene.findings.has_text(fed_but_still, perhaps_protector_of_fed);
}

bool waits_for_its_capacitor(const Scene& scene) {
  return scene.findings.has_text(fed_but_still, perhaps_capacitor) ||
         scene.findings.has_text(running, turns_slow_perhaps_capacitor) || draws_as_beside_a_bad_capacitor(scene);
}

bool needs_a_retry(const Scene& scene) {
  return scene.is_electronic() && watched_seconds(scene) < scene.ratings->retry.value();
}

std::uint16_t signal_told(const Scene& scene) {
  std::uint16_t told = signal_not_known;
  for (const PreparedReading& reading : scene.evidence.readings())
    told = std::max(told, reading.state(signal).value_or(signal_not_known));
  return told;
}

bool needs_its_signal(const Scene& scene) {
  constexpr double most_volts_of_electronics =
      60.0;  // extra-low voltage: no motor on the line (IEC 61140, from memory)
  if (signal_told(scene) != signal_not_known) return false;
  if (scene.ratings != nullptr) return scene.ratings->may_have_a_signal();
  return scene.plug.reading != nullptr && scene.plug.volt < most_volts_of_electronics;
}

RuleDescriptor describe_fed_but_still() {
  return {
      "fed-but-still",
      OHMWRIGHT_TEXT("Volts at its plug, and it stands still"),
      false,
      can_condemn | can_be_undecided,
      "common practice, no source: a motor that gets 90 % of its volts and is free, and stands still, is at fault",
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
          {"not-seen", OHMWRIGHT_TEXT("There are {volts} at its plug; whether it turns was not said (--wheel turns, "
                                      "speed=0rpm, or its speed).")},
          {"it-turns", OHMWRIGHT_TEXT("Not asked: it turns.")},
          {"no-volts", OHMWRIGHT_TEXT("Not judged: the volts at its plug were not read.")},
          {"not-live", OHMWRIGHT_TEXT("Not judged: the volts have to be read while it should run.")},
          {"pulses-contradict",
           OHMWRIGHT_TEXT(
               "There are {volts} at its plug and it is said to stand still, but its tachometer gives pulses: one of "
               "the two is not so.")},
          {"too-few-to-tell",
           OHMWRIGHT_TEXT(
               "There are {volts} at its plug where {rated} belong. Its torque falls with the square of the "
               "volts, and a plug that nothing loads shows a meter volts that feed nothing: that condemns no "
               "motor.")},
          {"too-many-volts", OHMWRIGHT_TEXT("Not judged: there are too many volts at its plug.")},
          {"signal-not-read",
           OHMWRIGHT_TEXT("There are {volts} at its plug, its wheel is free, and it stands still. A fan with a wire "
                          "for its control "
                          "signal is fed always and stands while that tells it to, or is lost: it was not read.")},
          {"told-to-stand",
           OHMWRIGHT_TEXT(
               "There are {volts} at its plug and it stands still, as its control signal tells it to: look at "
               "what gives the signal, control, door switch or sensor.")},
          {"perhaps-protector",
           OHMWRIGHT_TEXT(
               "There are {volts} at its plug, its wheel is free, and it stands still. But if something held it "
               "before, a protector inside may have opened, which closes when the motor has cooled: how warm "
               "it is was not said.")},
          {"minus",
           OHMWRIGHT_TEXT("The meter shows {volts} at its plug: the probes are swapped, or its wires are, and with its "
                          "wires swapped a good one stands still.")},
          {"volts-contradict", OHMWRIGHT_TEXT("Not judged: the readings of its volts contradict each other.")},
          {"perhaps-capacitor",
           OHMWRIGHT_TEXT("There are {volts} at its plug, its wheel is free, and it stands still. But with a dead run "
                          "capacitor a good one hums and stands still as well, and its own was not found good.")},
      }};
}

void judge_fed_but_still(const Scene& scene) {
  const bool turns_now = (scene.turning && !scene.stands_still()) || is_said_turning(scene);
  if (scene.plug.reading == nullptr || scene.plug.are_far_too_high() || turns_now) {
    scene.findings.add(fed_but_still, Outcome::silent, why_not_asked(scene, turns_now));
    return;
  }
  Text text = scene.turning ? text_when_still(scene) : not_seen;
  if (scene.tach_says == TachSays::pulses_while_still) text = pulses_contradict;
  if (!scene.plug.feed()) text = text_of_too_few(scene);
  Finding& finding =
      scene.findings.add(fed_but_still, text == dead ? Outcome::out_of_limits : Outcome::undecided, text);
  if (text == dead) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  tell_volts(scene, finding);
  if (scene.ratings != nullptr) tell(finding, "retry", AnyQuantity(scene.ratings->retry));
}

}  // namespace ohmwright::fan_motor
