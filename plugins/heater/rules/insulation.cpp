#include "rules/insulation.hpp"

#include <algorithm>

#include <ohmwright/component/insulation.hpp>

namespace ohmwright::heater {

namespace {

enum Text : TextIndex {
  no_reading = InsulationText::first_own,
  only_live,
  still_to_read,
  ran_still_to_read,
  ohmmeter_more_than,
  tester_more_than,
};

/// Then its insulation is the next thing that matters, read or not.
bool element_passed(const Scene& scene) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [](const Finding& finding) {
    return finding.rule == element_resistance && finding.outcome == Outcome::within_limits;
  });
}

InsulationRule asked_of(const Scene& scene) {
  return {insulation,         insulation_resistance, test_voltage, least_to_frame(scene.ratings),
          ohmmeter_more_than, tester_more_than};
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
      {
          {"insulates", OHMWRIGHT_TEXT("To the frame it has {measured}, tested with {volts}; {least} is the least.")},
          {"insulates-past-range",
           OHMWRIGHT_TEXT("To the frame the tester shows more than its range, at {volts}; {least} is the least.")},
          {"leaks",
           OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least. Do not energise it: the "
                          "frame may become live.")},
          {"leaks-while-wet",
           OHMWRIGHT_TEXT("To the frame it has only {measured}, where {least} is the least, but it was wet. Do not "
                          "energise it; dry it and test again.")},
          {"leaks-connection-unstated",
           OHMWRIGHT_TEXT(
               "To the frame it reads only {measured}, where {least} is the least, but it was not said whether "
               "its leads were off: something still connected may be what leaks. Do not energise it.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT("To the frame it has {measured}, too near to the {least} it needs at least to tell. Do not "
                          "energise it until that is decided.")},
          {"ohmmeter-is-no-tester",
           OHMWRIGHT_TEXT(
               "To the frame it reads {measured}, but an ohmmeter has a few volts only: that finds a short to "
               "the frame and proves no insulation. Do not energise it yet.")},
          {"ohmmeter-past-range",
           OHMWRIGHT_TEXT("To the frame the ohmmeter shows OL, so there is no short; with its few volts it proves no "
                          "insulation. The least is {least}, at 500 V; do not energise it yet.")},
          {"few-volts",
           OHMWRIGHT_TEXT(
               "To the frame it reads {measured}, tested with {volts}: too few to prove insulation against the mains. "
               "Test it with 500 V, and do not energise it yet.")},
          {"few-volts-past-range",
           OHMWRIGHT_TEXT("To the frame the tester shows more than its range; with {volts} that proves no insulation "
                          "against the mains. The least is {least}, at 500 V; do not energise it yet.")},
          {"leaks-at-more-volts",
           OHMWRIGHT_TEXT(
               "To the frame it has only {measured}, where {least} is the least, but it was tested with {volts}: with "
               "more than 500 V a surge arrester may conduct. Do not energise it; test it again with 500 V.")},
          {"repeats-differ",
           OHMWRIGHT_TEXT(
               "To the frame the repeated readings differ, {measured} in the mean, and the lowest counts: one of "
               "them may be below the {least} it needs. Give each by itself, the volts of the test behind "
               "each. Do not energise it until that is decided.")},
          {"no-reading",
           OHMWRIGHT_TEXT(
               "Not judged: the insulation to the frame was not read, and the ohms of the element say nothing "
               "of it.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: insulation is never read on a live part.")},
          {"still-to-read",
           OHMWRIGHT_TEXT("Its insulation to the frame was not read, and good ohms say nothing of it: it is not yet "
                          "proved safe to energise.")},
          {"ran-still-to-read",
           OHMWRIGHT_TEXT("Its insulation to the frame was not read, and that it heats says nothing of it: it is not "
                          "yet proved safe to energise.")},
          {"ohmmeter-more-than", OHMWRIGHT_TEXT("To the frame the ohmmeter shows more than {shown}, so there is no "
                                                "short; with its few volts it proves no "
                                                "insulation. The least is {least}, at 500 V; do not energise it yet.")},
          {"tester-more-than",
           OHMWRIGHT_TEXT(
               "To the frame the tester shows more than {shown}, at {volts}, and {least} is the least: whether it has "
               "that much does not follow. Test it on a higher range; do not energise it until that is decided.")},
      }};
}

void judge_insulation(const Scene& scene) {
  const InsulationRule asked = asked_of(scene);
  const PreparedReading* reading = decisive_insulation_reading(scene.evidence, asked);
  if (reading == nullptr && insulation_was_read_live(scene.evidence, asked))
    scene.findings.add(insulation, Outcome::silent, only_live);
  else if (reading == nullptr && element_passed(scene))
    scene.findings.add(insulation, Outcome::undecided, scene.load ? ran_still_to_read : still_to_read);
  else if (reading == nullptr)
    scene.findings.add(insulation, Outcome::silent, no_reading);
  else
    judge_insulation_reading(*reading, asked, scene.evidence, scene.settings, scene.findings);
}

}  // namespace ohmwright::heater
