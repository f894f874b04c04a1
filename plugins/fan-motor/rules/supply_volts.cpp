#include "rules/supply_volts.hpp"

#include <cmath>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex { too_many, mains_on_low_voltage, not_too_many, no_rated_volts, no_volts, contradict, jumping };

/// Extra-low voltage ends there (IEC 61140, alternating; from memory) [V].
constexpr double most_of_extra_low = 50.0;

}  // namespace

bool has_mains_on_low_voltage(const Scene& scene) {
  return scene.plug.are_far_too_high() && scene.ratings->voltage->value() <= most_of_extra_low &&
         std::abs(scene.plug.volt) > most_of_extra_low;
}

RuleDescriptor describe_supply_volts() {
  return {
      "supply-volts",
      OHMWRIGHT_TEXT("Volts at its plug"),
      false,
      can_be_undecided,
      "common practice, no source: 15 % above the rated volts; extra-low voltage up to 50 V, IEC 61140 (from memory)",
      {
          {"too-many",
           OHMWRIGHT_TEXT(
               "It gets {volts} where {rated} belong. With so many a motor draws too much and may burn, so "
               "how it runs, or that it stands still, judges nothing: unplug it, and find out why before any "
               "motor is fitted.")},
          {"mains-on-low-voltage", OHMWRIGHT_TEXT("STOP: there are {volts} at a plug that is made for {rated}, mains "
                                                  "where extra-low voltage belongs. Touch "
                                                  "neither it nor its wires, and cut the supply at the wall.")},
          {"not-too-many", OHMWRIGHT_TEXT("Not asked: there are not too many volts at its plug.")},
          {"no-rated-volts", OHMWRIGHT_TEXT("Not judged: for how many volts it is made is not known.")},
          {"no-volts", OHMWRIGHT_TEXT("Not judged: the volts at its plug were not read live.")},
          {"contradict",
           OHMWRIGHT_TEXT("At its plug {one} were read, and {other}: they contradict each other, and their mean was "
                          "read by nobody. Until one is left out they say nothing.")},
          {"jumping",
           OHMWRIGHT_TEXT(
               "The volts at its plug were read {count} times and jump: they contradict each other, and their "
               "mean says nothing.")},
      }};
}

namespace {

void say_that_they_contradict(const Scene& scene, const FarApart& apart) {
  Finding& finding = scene.findings.add(supply_volts, Outcome::undecided, apart.count == 2 ? contradict : jumping);
  finding.holds_back = true;
  tell(finding, "one", volts(apart.lowest));
  tell(finding, "other", volts(apart.highest));
  tell(finding, "count", static_cast<double>(apart.count));
}

}  // namespace

void judge_supply_volts(const Scene& scene) {
  if (scene.plug.apart) {
    say_that_they_contradict(scene, *scene.plug.apart);
    return;
  }
  if (!scene.plug.are_far_too_high()) {
    const Text why = scene.plug.reading == nullptr             ? no_volts
                     : scene.plug.level == VoltsLevel::unknown ? no_rated_volts
                                                               : not_too_many;
    scene.findings.add(supply_volts, Outcome::silent, why);
    return;
  }
  const Text text = has_mains_on_low_voltage(scene) ? mains_on_low_voltage : too_many;
  Finding& finding = scene.findings.add(supply_volts, Outcome::undecided, text);
  finding.holds_back = true;
  tell_volts(scene, finding);
}

}  // namespace ohmwright::fan_motor
