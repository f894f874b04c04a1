#include "rules/insulation.hpp"

#include <ohmwright/component/insulation.hpp>

namespace ohmwright::wiring {

namespace {

enum Text : TextIndex { no_reading = InsulationText::first_own };

InsulationRule asked_of(const Scene& scene) {
  return {insulation, insulation_resistance, test_voltage, least_to_frame(scene.ratings)};
}

}  // namespace

RuleDescriptor describe_insulation() {
  return {"insulation",
          OHMWRIGHT_TEXT("Insulation to the frame or the wire beside it"),
          false,
          can_pass | can_condemn | can_be_undecided,
          "EN 50699, EN 50678 (before them DIN VDE 0701-0702): 500 V DC; class I 1 Mohm, class II 2 Mohm, "
          "class III 0.25 Mohm",
          insulation_texts(InsulationPlace::frame_or_wire,
                           {{"no-reading", OHMWRIGHT_TEXT("Not judged: its insulation was not read.")}})};
}

void judge_insulation(const Scene& scene) {
  const InsulationRule asked = asked_of(scene);
  const PreparedReading* reading = decisive_insulation_reading(scene.evidence, asked);
  if (reading == nullptr)
    scene.findings.add(
        insulation, Outcome::silent,
        insulation_was_read_live(scene.evidence, asked) ? TextIndex{InsulationText::only_live} : TextIndex{no_reading});
  else
    judge_insulation_reading(*reading, asked, scene.evidence, scene.settings, scene.findings);
}

}  // namespace ohmwright::wiring
