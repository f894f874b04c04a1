#include "rules/insulation.hpp"

#include <algorithm>
#include <limits>

#include <ohmwright/component/insulation_when_wet.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  electronics_inside = InsulationText::first_own,
  no_reading,
  still_to_read,
  ran_still_to_read,
  extra_low_voltage,
  leaks_when_wet,
};

bool passed(const Scene& scene, RuleIndex rule) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [&](const Finding& finding) {
    return finding.rule == rule && finding.outcome == Outcome::within_limits;
  });
}

/// Once ohms, capacitor or running have passed, its insulation is the next thing that matters, read or not. An
/// electronic motor is not tested so.
void say_what_was_not_read(const Scene& scene, const InsulationRule& asked) {
  const bool ran = passed(scene, running);
  if (insulation_was_read_live(scene.evidence, asked))
    scene.findings.add(insulation, Outcome::silent, InsulationText::only_live);
  else if (!scene.is_electronic() &&
           (ran || passed(scene, winding_resistance) || passed(scene, windings_add_up) || passed(scene, capacitor)))
    scene.findings.add(insulation, Outcome::undecided, ran ? ran_still_to_read : still_to_read);
  else
    scene.findings.add(insulation, Outcome::silent, no_reading);
}

InsulationRule asked_of(const Scene& scene) {
  const Resistance least =
      scene.ratings == nullptr ? least_insulation(EarthClass::unstated) : scene.ratings->insulation;
  return {insulation, insulation_resistance, test_voltage, least.value()};
}

}  // namespace

RuleDescriptor describe_insulation() {
  return {
      "insulation",
      OHMWRIGHT_TEXT("Insulation to the frame"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "EN 50699, EN 50678 (before them DIN VDE 0701-0702): 500 V DC, class I at least 1 Mohm, class II 2 Mohm, class "
      "III 0.25 Mohm",
      insulation_texts(
          InsulationPlace::frame,
          {
              {"electronics-inside",
               OHMWRIGHT_TEXT("A 500 V test destroys the electronics of such a motor: its insulation is not tested so. "
                              "Unplug it before anything beside it is.")},
              {"no-reading",
               OHMWRIGHT_TEXT("Not judged: the insulation to the frame was not read, and the ohms of a winding say "
                              "nothing of it.")},
              {"still-to-read",
               OHMWRIGHT_TEXT("Its insulation to the frame was not read, and good ohms say nothing of it: it is not "
                              "yet proved safe to energise.")},
              {"ran-still-to-read",
               OHMWRIGHT_TEXT("Its insulation to the frame was not read, and that it runs says nothing of it: it is "
                              "not yet proved safe to energise.")},
              {"extra-low-voltage",
               OHMWRIGHT_TEXT("To the frame the ohmmeter finds no less than the {least} of a part for extra-low "
                              "voltage (class III). Its electronics bear no 500 V, so no more is asked of it, if its "
                              "supply is safely separated from the mains.")},
              {"leaks-when-wet",
               OHMWRIGHT_TEXT("Dried it insulates, but wet it had only {wet} to the frame, where {least} is the least: "
                              "water gets in, and frost and water come again. Do not energise it as it is.")},
          })};
}

namespace {

/// Whether it shows no less than what is asked, whatever that proves.
bool shows_the_least(const Scene& scene, const PreparedReading& reading, const InsulationRule& asked) {
  if (shows_more_than_range(reading)) return reading.range_full_scale >= asked.least;
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const Conformance p = conformance_of(insulation_shown(reading), scene.evidence.sources(), asked.least, infinity);
  return decide(p, scene.settings.confidence) == Outcome::within_limits;
}

/// Whether an ohmmeter has told all that can be told: a part for extra-low voltage with electronics inside.
bool is_of_extra_low_voltage(const Scene& scene, const PreparedReading& reading, const InsulationRule& asked) {
  return scene.is_electronic() && scene.ratings->earth_class == EarthClass::three &&
         shows_the_least(scene, reading, asked);
}

/// It was seen running after that test, which may have destroyed it.
bool ran_after(const Scene& scene, const PreparedReading& test) {
  bool later = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (&reading == &test) later = true;
    if (later && (reading.measurand == speed || reading.measurand == tach) && !is_in_circuit(reading)) return true;
  }
  return false;
}

/// It passes by an ohmmeter: nothing more can be asked of a part for extra-low voltage with electronics inside.
void say_extra_low_voltage(const Scene& scene, const InsulationRule& asked) {
  Finding& finding = scene.findings.add(insulation, Outcome::within_limits, extra_low_voltage);
  finding.limits.lower = ohms(asked.least);
  tell(finding, "least", *finding.limits.lower);
}

}  // namespace

void judge_insulation(const Scene& scene) {
  const InsulationRule asked = asked_of(scene);
  const PreparedReading* reading = decisive_insulation_reading(scene.evidence, asked);
  if (reading == nullptr)
    say_what_was_not_read(scene, asked);
  else if (scene.is_electronic() && by_insulation_tester(*reading, asked) && shows_the_least(scene, *reading, asked))
    scene.findings.add(insulation, Outcome::undecided, electronics_inside).holds_back = !ran_after(scene, *reading);
  else if (is_of_extra_low_voltage(scene, *reading, asked))
    say_extra_low_voltage(scene, asked);
  else
    judge_insulation_reading(*reading, asked, scene.evidence, scene.settings, scene.findings);
  hold_back_for_a_wet_leak(scene.evidence, asked, leaks_when_wet, scene.findings);
}

bool leaks_only_when_wet(const Scene& scene) { return scene.findings.has_text(insulation, leaks_when_wet); }

bool may_be_destroyed_by_its_test(const Scene& scene) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [](const Finding& f) {
    return f.rule == insulation && f.text == electronics_inside && f.holds_back;
  });
}

}  // namespace ohmwright::fan_motor
