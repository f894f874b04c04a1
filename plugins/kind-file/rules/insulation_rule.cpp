#include "rules/insulation_rule.hpp"

#include <algorithm>

#include <ohmwright/component/insulation.hpp>

namespace ohmwright::kind_file {

namespace {

/// Then its insulation is the next thing that matters, read or not.
bool good_so_far(const Scene& scene) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [&](const Finding& finding) {
    return scene.definition.descriptor.rules[finding.rule].essential && finding.outcome == Outcome::within_limits;
  });
}

}  // namespace

void judge_insulation(const Scene& scene, std::uint16_t rule) {
  const RuleForm& form = scene.definition.rules[rule];
  const KnownRule& known = scene.known[rule];
  const InsulationRule asked{rule, form.measurand, form.insulation()->test_voltage, known.lower.value_or(0.0)};
  const PreparedReading* reading = decisive_insulation_reading(scene.evidence, asked);
  if (reading != nullptr && known.known)
    judge_insulation_reading(*reading, asked, scene.evidence, scene.settings, scene.findings);
  else if (reading != nullptr)
    say(scene, rule, Outcome::undecided, OwnInsulationText::no_figure);
  else if (insulation_was_read_live(scene.evidence, asked))
    scene.findings.add(rule, Outcome::silent, InsulationText::only_live);
  else if (good_so_far(scene))
    say(scene, rule, Outcome::undecided, OwnInsulationText::still_to_read);
  else
    say(scene, rule, Outcome::silent, OwnInsulationText::not_read);
}

}  // namespace ohmwright::kind_file
