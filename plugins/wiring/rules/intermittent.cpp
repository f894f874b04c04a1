#include "rules/intermittent.hpp"

#include <algorithm>

namespace ohmwright::wiring {

namespace {

enum Text : TextIndex { broken_inside, perhaps_the_probes, steady, one_reading, volts_jump };

bool counts(const PreparedReading& reading) { return is_of_the_wire(reading); }

bool all_clipped(const Scene& scene) {
  const auto readings = scene.evidence.readings();
  return std::all_of(readings.begin(), readings.end(),
                     [](const PreparedReading& reading) { return !counts(reading) || is_clipped(reading); });
}

}  // namespace

RuleDescriptor describe_intermittent() {
  return {
      "intermittent",
      OHMWRIGHT_TEXT("Comes and goes"),
      false,
      can_condemn | can_be_undecided,
      "common practice, no source: with the probes clipped on, a reading that jumps as the lead is moved is the "
      "lead's; "
      "apart by more than three standard uncertainties (GUM); repeats of one reading by 5 % and the meter's digits",
      {
          {"broken-inside",
           OHMWRIGHT_TEXT("With the probes clipped on, its readings jump: broken strands, a loose crimp or a tired "
                          "contact. A good one reads the same however it is bent.")},
          {"perhaps-the-probes",
           OHMWRIGHT_TEXT("Its readings jump. The lead may come and go, but probes held by hand do so as well.")},
          {"steady", OHMWRIGHT_TEXT("Not seen: its readings agree with each other.")},
          {"one-reading", OHMWRIGHT_TEXT("Not judged: this needs two readings, of which one is taken while the lead is "
                                         "bent.")},
          {"volts-jump",
           OHMWRIGHT_TEXT("The volts across it under load jump from one reading to the next: a joint in it comes and "
                          "goes, or the load did.")},
      }};
}

void judge_intermittent(const Scene& scene) {
  if (!scene.comes_and_goes()) {
    const auto readings = scene.evidence.readings();
    const bool several = std::count_if(readings.begin(), readings.end(), counts) > 1;
    scene.findings.add(intermittent, Outcome::silent, several ? steady : one_reading);
    return;
  }
  const bool certain = scene.ohms_come_and_go() && all_clipped(scene);
  Text text = scene.ohms_come_and_go() ? perhaps_the_probes : volts_jump;
  if (certain) text = broken_inside;
  Finding& finding = scene.findings.add(intermittent, certain ? Outcome::out_of_limits : Outcome::undecided, text);
  finding.holds_back = !certain;
  if (!certain) return;
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = 0.0;
}

}  // namespace ohmwright::wiring
