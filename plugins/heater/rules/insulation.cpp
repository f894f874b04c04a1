#include "rules/insulation.hpp"

#include <algorithm>

#include <ohmwright/component/insulation_when_wet.hpp>

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  no_reading = InsulationText::first_own,
  still_to_read,
  ran_still_to_read,
  leaks_when_wet,
};

/// Then its insulation is the next thing that matters, read or not.
bool element_passed(const Scene& scene) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [](const Finding& finding) {
    return finding.rule == element_resistance && finding.outcome == Outcome::within_limits;
  });
}

InsulationRule asked_of(const Scene& scene) {
  return {insulation, insulation_resistance, test_voltage, least_to_frame(scene.ratings)};
}

}  // namespace

RuleDescriptor describe_insulation() {
  return {
      "insulation",
      OHMWRIGHT_TEXT("Insulation to the frame"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "EN 50699, EN 50678 (before them DIN VDE 0701-0702): 500 V DC; class I 1 Mohm, heating above 3.5 kW 0.3 Mohm, "
      "class II 2 Mohm, class III 0.25 Mohm",
      insulation_texts(
          InsulationPlace::frame,
          {
              {"no-reading",
               OHMWRIGHT_TEXT("Not judged: the insulation to the frame was not read, and the ohms of the element say "
                              "nothing of it.")},
              {"still-to-read",
               OHMWRIGHT_TEXT("Its insulation to the frame was not read, and good ohms say nothing of it: it is not "
                              "yet proved safe to energise.")},
              {"ran-still-to-read",
               OHMWRIGHT_TEXT("Its insulation to the frame was not read, and that it heats says nothing of it: it is "
                              "not yet proved safe to energise.")},
              {"leaks-when-wet",
               OHMWRIGHT_TEXT("Dried it insulates, but wet it had only {wet} to the frame, where {least} is the least: "
                              "water gets in at its ends or joints, and frost and water come again. Do not energise it "
                              "as it is.")},
          })};
}

void judge_insulation(const Scene& scene) {
  const InsulationRule asked = asked_of(scene);
  const PreparedReading* reading = decisive_insulation_reading(scene.evidence, asked);
  if (reading == nullptr && insulation_was_read_live(scene.evidence, asked))
    scene.findings.add(insulation, Outcome::silent, InsulationText::only_live);
  else if (reading == nullptr && element_passed(scene))
    scene.findings.add(insulation, Outcome::undecided, scene.load ? ran_still_to_read : still_to_read);
  else if (reading == nullptr)
    scene.findings.add(insulation, Outcome::silent, no_reading);
  else
    judge_insulation_reading(*reading, asked, scene.evidence, scene.settings, scene.findings);
  hold_back_for_a_wet_leak(scene.evidence, asked, leaks_when_wet, scene.findings);
}

bool leaks_only_when_wet(const Scene& scene) { return scene.findings.has_text(insulation, leaks_when_wet); }

void advise_if_it_was_wet(const Scene& scene) {
  ohmwright::advise_if_it_was_wet(scene.evidence, asked_of(scene), say_if_it_was_wet, scene.findings);
}

void advise_on_weak_wet_test(const Scene& scene) {
  ohmwright::advise_on_weak_wet_test(scene.evidence, asked_of(scene), wet_with_more_volts, scene.findings);
}

}  // namespace ohmwright::heater
