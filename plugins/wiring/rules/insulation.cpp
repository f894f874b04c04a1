#include "rules/insulation.hpp"

#include <ohmwright/component/insulation.hpp>

namespace ohmwright::wiring {

namespace {

enum Text : TextIndex {
  no_reading = InsulationText::first_own,
  only_live,
  ohmmeter_more_than,
  tester_more_than,
};

InsulationRule asked_of(const Scene& scene) {
  return {insulation,         insulation_resistance, test_voltage, least_to_frame(scene.ratings),
          ohmmeter_more_than, tester_more_than};
}

}  // namespace

RuleDescriptor describe_insulation() {
  return {
      "insulation",
      OHMWRIGHT_TEXT("Insulation to the frame or the wire beside it"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "EN 50699, EN 50678 (before them DIN VDE 0701-0702): 500 V DC; class I 1 Mohm, class II 2 Mohm, "
      "class III 0.25 Mohm",
      {
          {"insulates",
           OHMWRIGHT_TEXT(
               "Tested with {volts} it has {measured} to the frame or the wire beside it; {least} is the least.")},
          {"insulates-past-range",
           OHMWRIGHT_TEXT("Tested with {volts}, it shows more than the tester's range; {least} is the least.")},
          {"leaks", OHMWRIGHT_TEXT(
                        "It has only {measured} to the frame or the wire beside it, where {least} is the least: it is "
                        "pinched, chafed or wet inside. Do not energise it: metal about it may become live.")},
          {"leaks-while-wet",
           OHMWRIGHT_TEXT(
               "It has only {measured} to the frame or the wire beside it, where {least} is the least, but it "
               "was wet. Do not energise it; dry it and test again.")},
          {"leaks-connection-unstated",
           OHMWRIGHT_TEXT(
               "It reads only {measured} to the frame or the wire beside it, where {least} is the least, but "
               "it was not said whether its ends were off: what hangs on it may be what leaks. Do not "
               "energise it.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT("It has {measured} to the frame or the wire beside it, too near to the {least} it needs at "
                          "least to tell. Do not energise it until that is decided.")},
          {"ohmmeter-is-no-tester",
           OHMWRIGHT_TEXT(
               "It reads {measured} to the frame or the wire beside it, but an ohmmeter has a few volts only: "
               "that finds a short and proves no insulation.")},
          {"ohmmeter-past-range",
           OHMWRIGHT_TEXT(
               "The ohmmeter shows OL to the frame or the wire beside it, so there is no short; with its few "
               "volts it proves no insulation. The least is {least}, at 500 V.")},
          {"few-volts", OHMWRIGHT_TEXT("It reads {measured} to the frame or the wire beside it, tested with {volts}: "
                                       "too few to prove insulation against the mains. "
                                       "Test it with 500 V, and do not energise it yet.")},
          {"few-volts-past-range",
           OHMWRIGHT_TEXT("The tester shows more than its range; with {volts} that proves no insulation "
                          "against the mains. The least is {least}, at 500 V; do not energise it yet.")},
          {"leaks-at-more-volts",
           OHMWRIGHT_TEXT(
               "It has only {measured} to the frame or the wire beside it, where {least} is the least, but it was "
               "tested with {volts}: with "
               "more than 500 V a surge arrester may conduct. Do not energise it; test it again with 500 V.")},
          {"repeats-differ",
           OHMWRIGHT_TEXT("To the frame or the wire beside it the repeated readings differ, {measured} in the mean, "
                          "and the lowest counts: one of "
                          "them may be below the {least} it needs. Give each by itself, the volts of the test behind "
                          "each. Do not energise it until that is decided.")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: its insulation was not read.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: insulation is never read on a live part.")},
          {"ohmmeter-more-than", OHMWRIGHT_TEXT("To the frame or the wire beside it the ohmmeter shows more than "
                                                "{shown}, so there is no short; with its few volts it proves no "
                                                "insulation. The least is {least}, at 500 V; do not energise it yet.")},
          {"tester-more-than",
           OHMWRIGHT_TEXT(
               "To the frame or the wire beside it the tester shows more than {shown}, at {volts}, and {least} is the "
               "least: whether it has "
               "that much does not follow. Test it on a higher range; do not energise it until that is decided.")},
      }};
}

void judge_insulation(const Scene& scene) {
  const InsulationRule asked = asked_of(scene);
  const PreparedReading* reading = decisive_insulation_reading(scene.evidence, asked);
  if (reading == nullptr)
    scene.findings.add(insulation, Outcome::silent,
                       insulation_was_read_live(scene.evidence, asked) ? only_live : no_reading);
  else
    judge_insulation_reading(*reading, asked, scene.evidence, scene.settings, scene.findings);
}

}  // namespace ohmwright::wiring
