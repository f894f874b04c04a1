#include "rules/readings_agree.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex { agree, disagree, nothing_to_compare };

double number_of(const PreparedReading& reading) { return reading.reading + 1.0; }

}  // namespace

RuleDescriptor describe_readings_agree() {
  return {
      "readings-agree",
      OHMWRIGHT_TEXT("Readings agree with each other"),
      false,
      can_pass | can_be_undecided,
      "three standard uncertainties of the difference, readings less than 5 K apart (ours)",
      {
          {"agree",
           OHMWRIGHT_TEXT("The readings at about one temperature agree with each other as those of one part should.")},
          {"disagree",
           OHMWRIGHT_TEXT("Readings {first} and {second} lie {apart} times farther apart than their own doubt: one was "
                          "misread, a contact is bad, or a temperature was not what it seemed.")},
          {"nothing-to-compare",
           OHMWRIGHT_TEXT("Not judged: there are no two dry readings of the part alone at about one temperature.")},
      }};
}

void judge_readings_agree(const Scene& scene) {
  if (!scene.any_comparable) {
    scene.findings.add(readings_agree, Outcome::silent, nothing_to_compare);
    return;
  }
  const bool apart = scene.readings_disagree();
  Finding& finding =
      scene.findings.add(readings_agree, apart ? Outcome::undecided : Outcome::within_limits, apart ? disagree : agree);
  tell(finding, "first", number_of(*scene.first));
  tell(finding, "second", number_of(*scene.second));
  tell(finding, "apart", scene.worst_disagreement);
}

}  // namespace ohmwright::defrost_sensor
