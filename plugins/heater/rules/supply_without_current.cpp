#include "rules/supply_without_current.hpp"

#include <cmath>
#include <optional>

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  fed_and_cold,
  fed_and_heating,
  not_fed,
  current_unknown,
  no_volts,
  not_live,
  far_too_many,
  contradict,
  jumping,
  drawing_without_volts
};

/// Of its rated volts, or these volts where nothing is known of it, it is fed.
constexpr double fed_share = 0.5;
constexpr double fed_volt = 50.0;

bool is_fed(const Scene& scene, const PreparedReading& across) {
  const bool rated = scene.ratings != nullptr && scene.ratings->voltage;
  const double least = rated ? fed_share * scene.ratings->voltage->value() : fed_volt;
  return std::abs(across.value.value()) >= least;
}

/// So few that no element lets a current through that is worth the name.
bool has_no_volts(const PreparedReading& across) {
  constexpr double no_volt = 5.0;  // common practice, no source
  return std::abs(across.value.value()) < no_volt;
}

Text text_of(const Scene& scene, const PreparedReading& across) {
  if (!is_fed(scene, across)) return is_seen_drawing(scene) && has_no_volts(across) ? drawing_without_volts : not_fed;
  const PreparedReading* drawn = last_live_value(scene.evidence, current);
  if (drawn == nullptr) return scene.far_too_many_volt > 0.0 ? far_too_many : current_unknown;
  return drawn->value.value() < no_current_below(scene.ratings) ? fed_and_cold : fed_and_heating;
}

void say_that_they_contradict(const Scene& scene, const FarApart& apart) {
  Finding& finding =
      scene.findings.add(supply_without_current, Outcome::undecided, apart.count == 2 ? contradict : jumping);
  finding.holds_back = true;
  tell(finding, "one", volts(apart.lowest));
  tell(finding, "other", volts(apart.highest));
  tell(finding, "count", static_cast<double>(apart.count));
}

}  // namespace

bool is_fed_and_cold(const Scene& scene) {
  const PreparedReading* across = volts_at_its_leads(scene.evidence);
  return across != nullptr && text_of(scene, *across) == fed_and_cold;
}

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
          {"contradict",
           OHMWRIGHT_TEXT(
               "Across its own leads {one} were read, and {other}: they contradict each other, and their mean "
               "was read by nobody. Until one is left out they say nothing.")},
          {"jumping",
           OHMWRIGHT_TEXT(
               "The volts across its own leads were read {count} times and jump: they contradict each other, "
               "and their mean says nothing.")},
          {"drawing-without-volts",
           OHMWRIGHT_TEXT(
               "There are {volts} across its own leads, and it draws {current}: nothing flows without volts. "
               "The probes were not on its own leads, or the clamp holds another wire.")},
      }};
}

void judge_supply_without_current(const Scene& scene) {
  const PreparedReading* reading = last_live_value(scene.evidence, terminal_voltage);
  if (reading == nullptr) {
    const bool read = last_value(scene.evidence, terminal_voltage) != nullptr;
    scene.findings.add(supply_without_current, Outcome::silent, read ? not_live : no_volts);
    return;
  }
  if (const std::optional<FarApart> apart = contradicting_volts(scene.evidence)) {
    say_that_they_contradict(scene, *apart);
    return;
  }
  const PreparedReading* drawn = last_live_value(scene.evidence, current);
  const Text text = text_of(scene, *reading);
  const bool open = text == fed_and_cold;
  Finding& finding =
      scene.findings.add(supply_without_current, open ? Outcome::out_of_limits : Outcome::undecided, text);
  if (open) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  finding.holds_back = text == far_too_many || text == drawing_without_volts;
  tell(finding, "volts", volts(reading->displayed));
  if (text == far_too_many) {
    const double share = scene.far_too_many_volt / scene.ratings->voltage->value();
    tell(finding, "voltage", AnyQuantity(*scene.ratings->voltage));
    tell(finding, "times", share * share);
  }
  if (drawn != nullptr) tell(finding, "current", amperes(drawn->displayed));
}

}  // namespace ohmwright::heater
