#include "rules/supply_without_current.hpp"

#include <cmath>

namespace ohmwright::heater {

namespace {

enum Text : TextIndex { fed_and_cold, fed_and_heating, not_fed, current_unknown, no_volts, not_live, far_too_many };

/// Of its rated volts, or these volts where nothing is known of it, it is fed.
constexpr double fed_share = 0.5;
constexpr double fed_volt = 50.0;

}  // namespace

RuleDescriptor describe_supply_without_current() {
  return {
      "supply-without-current",
      OHMWRIGHT_TEXT("Volts on it, and no current"),
      false,
      can_condemn | can_be_undecided,
      "Ohm: volts across an element without a current through it are the volts across a gap",
      {
          {"fed-and-cold",
           OHMWRIGHT_TEXT("There are {volts} across its own leads and it draws {current}, next to nothing: it is open, "
                          "at least while it is hot, however it reads cold.")},
          {"fed-and-heating",
           OHMWRIGHT_TEXT("There are {volts} across its own leads and it draws {current}: it heats.")},
          {"not-fed",
           OHMWRIGHT_TEXT("There are only {volts} across its own leads: it is not fed. Look before it, at limit "
                          "thermostat, thermal link, control and wiring.")},
          {"current-unknown",
           OHMWRIGHT_TEXT(
               "There are {volts} across its own leads; what it draws was not read. Put a clamp around one of "
               "them.")},
          {"no-volts", OHMWRIGHT_TEXT("Not judged: the volts across its own leads were not read.")},
          {"not-live", OHMWRIGHT_TEXT("Not judged: the volts have to be read while it should heat.")},
          {"far-too-many",
           OHMWRIGHT_TEXT("There are {volts} across its own leads, where {voltage} belong. Switch it off now: that is "
                          "{times} times its heat. The heater is for another voltage, or the supply is wrong.")},
      }};
}

void judge_supply_without_current(const Scene& scene) {
  const PreparedReading* reading = last_live_value(scene.evidence, terminal_voltage);
  if (reading == nullptr) {
    const bool read = last_value(scene.evidence, terminal_voltage) != nullptr;
    scene.findings.add(supply_without_current, Outcome::silent, read ? not_live : no_volts);
    return;
  }
  const bool rated = scene.ratings != nullptr && scene.ratings->voltage;
  const double least = rated ? fed_share * scene.ratings->voltage->value() : fed_volt;
  const PreparedReading* drawn = last_live_value(scene.evidence, current);
  const bool fed = std::abs(reading->value.value()) >= least;
  Text text = not_fed;
  if (fed) text = drawn == nullptr ? current_unknown : fed_and_heating;
  if (fed && drawn != nullptr && drawn->value.value() < no_current_below(scene.ratings)) text = fed_and_cold;
  if (fed && drawn == nullptr && scene.far_too_many_volt > 0.0) text = far_too_many;
  const bool open = text == fed_and_cold;
  Finding& finding =
      scene.findings.add(supply_without_current, open ? Outcome::out_of_limits : Outcome::undecided, text);
  if (open) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  finding.holds_back = text == far_too_many;
  tell(finding, "volts", volts(reading->displayed));
  if (text == far_too_many) {
    const double share = scene.far_too_many_volt / scene.ratings->voltage->value();
    tell(finding, "voltage", AnyQuantity(*scene.ratings->voltage));
    tell(finding, "times", share * share);
  }
  if (drawn != nullptr) tell(finding, "current", amperes(drawn->displayed));
}

}  // namespace ohmwright::heater
