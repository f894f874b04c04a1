#include "rules/turns_by_hand.hpp"

#include "rules/running.hpp"

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex { turns_free, seized, ice_or_bearing, ice_or_bearing_cold, not_spun };

/// A good fan coasts longer than this after a flick (common practice, no source) [s].
constexpr double free_from_seconds = 1.0;
/// Warmer than this, no ice holds it [K].
constexpr double no_ice_above_kelvin = Temperature::kelvin_at_zero_celsius + 5.0;

struct Spun {
  double seconds = 0.0;
  const Estimate* temperature = nullptr;
  bool surely_thawed = false;
};

std::optional<Spun> last_spun(const Scene& scene) {
  std::optional<Spun> last;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    const Estimate* time = reading.condition(coast);
    if (time == nullptr) continue;
    const Estimate* temperature = reading.condition(part_temperature);
    const bool thawed = temperature != nullptr &&
                        temperature->value() - 2.0 * temperature->standard_uncertainty() > no_ice_above_kelvin;
    last = Spun{time->value(), temperature, thawed};
  }
  return last;
}

}  // namespace

std::optional<bool> turns_freely(const Scene& scene) {
  const std::optional<Spun> spun = last_spun(scene);
  return spun ? std::optional(spun->seconds >= free_from_seconds) : std::nullopt;
}

bool may_be_held(const Scene& scene) {
  if (const std::optional<bool> free = turns_freely(scene)) return !*free;
  if (!scene.turning || scene.stands_still()) return true;
  return turns_too_slowly(scene) && !is_said_clear(scene);
}

RuleDescriptor describe_turns_by_hand() {
  return {
      "turns-by-hand",
      OHMWRIGHT_TEXT("Turned by hand"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "common practice, no source: a good fan coasts for a second and more after a flick",
      {
          {"turns-free",
           OHMWRIGHT_TEXT(
               "Flicked by hand it coasts for {coast}: bearing and wheel are free. If it was stuck before it "
               "thawed, ice stopped it, and the cause lies upstream: the defrost.")},
          {"seized",
           OHMWRIGHT_TEXT("Flicked by hand it stops at once, and it is too warm for ice: its bearing is seized.")},
          {"ice-or-bearing",
           OHMWRIGHT_TEXT("Flicked by hand it stops at once: ice on its wheel, or its bearing. Only thawed can that be "
                          "told (say its temperature, --at).")},
          {"ice-or-bearing-cold",
           OHMWRIGHT_TEXT("Flicked by hand it stops at once, at {temperature}: ice on its wheel, or its bearing. Only "
                          "thawed, some degrees above 0 °C, can that be told.")},
          {"not-spun", OHMWRIGHT_TEXT("Not asked: it was not turned by hand (--coast 4s).")},
      }};
}

void judge_turns_by_hand(const Scene& scene) {
  const std::optional<Spun> spun = last_spun(scene);
  if (!spun) {
    scene.findings.add(turns_by_hand, Outcome::silent, not_spun);
    return;
  }
  const bool free = spun->seconds >= free_from_seconds;
  Text text = spun->temperature != nullptr ? ice_or_bearing_cold : ice_or_bearing;
  if (free || spun->surely_thawed) text = free ? turns_free : seized;
  const Outcome outcome = free                  ? Outcome::within_limits
                          : spun->surely_thawed ? Outcome::out_of_limits
                                                : Outcome::undecided;
  Finding& finding = scene.findings.add(turns_by_hand, outcome, text);
  finding.holds_back = outcome == Outcome::undecided;
  if (text == seized) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  tell(finding, "coast", AnyQuantity(Dimension::duration, spun->seconds));
  if (spun->temperature != nullptr) tell(finding, "temperature", degrees(spun->temperature->value()));
}

}  // namespace ohmwright::fan_motor
