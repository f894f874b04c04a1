#include "rules/insulation.hpp"

#include <limits>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  insulates,
  insulates_past_range,
  leaks,
  leaks_while_wet,
  leaks_connection_unstated,
  not_told_apart,
  ohmmeter_is_no_tester,
  ohmmeter_past_range,
  electronics_inside,
  no_reading,
  only_live,
};

/// A test with fewer volts than this proves no insulation against the mains (EN 50699, EN 50678: 500 V, and 250 V where
/// a surge arrester would conduct; from memory) [V].
constexpr double least_test_volt = 250.0;

/// The worst reading to the frame, or null: the lowest value, else one past the range.
const PreparedReading* worst_to_frame(const Scene& scene, bool live) {
  const PreparedReading* worst = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != insulation_resistance || is_live(reading) != live) continue;
    const bool first_value = worst == nullptr || (worst->shown != Shown::value && reading.shown == Shown::value);
    const bool lower = worst != nullptr && worst->shown == Shown::value && reading.shown == Shown::value &&
                       !(reading.value.value() >= worst->value.value());
    if (first_value || lower) worst = &reading;
  }
  return worst;
}

bool by_tester(const PreparedReading& reading) {
  const Estimate* volts_of_test = reading.condition(test_voltage);
  return volts_of_test != nullptr && volts_of_test->value() >= least_test_volt;
}

void judge_past_range(const Scene& scene, const PreparedReading& reading, double least) {
  const bool tester = by_tester(reading) && reading.range_full_scale >= least;
  Finding& finding = scene.findings.add(insulation, tester ? Outcome::within_limits : Outcome::undecided,
                                        tester ? insulates_past_range : ohmmeter_past_range);
  finding.holds_back = !tester;
  finding.limits.lower = ohms(least);
  tell(finding, "least", *finding.limits.lower);
}

void judge_value(const Scene& scene, const PreparedReading& reading, double least) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const Conformance p = conformance_of(reading.value, scene.evidence.sources(), least, infinity);
  const bool wet = reading.moisture == Moisture::wet;
  const bool alone = is_lead_off(reading);
  Outcome outcome = decide(p, scene.settings.confidence);
  Text text = not_told_apart;
  if (outcome == Outcome::within_limits) text = by_tester(reading) ? insulates : ohmmeter_is_no_tester;
  if (outcome == Outcome::out_of_limits) text = wet ? leaks_while_wet : alone ? leaks : leaks_connection_unstated;
  const bool settled = text != ohmmeter_is_no_tester && text != leaks_while_wet && text != leaks_connection_unstated;
  if (!settled) outcome = Outcome::undecided;
  Finding& finding = scene.findings.add(insulation, outcome, text);
  finding.holds_back = outcome == Outcome::undecided;
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.measured = ohms(reading.value.value());
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  finding.limits.lower = ohms(least);
  if (settled) {
    finding.judged = reading.value;
    finding.judged_lower = least;
    finding.judged_upper = infinity;
  }
  tell(finding, "measured", *finding.measured);
  tell(finding, "least", *finding.limits.lower);
}

}  // namespace

RuleDescriptor describe_insulation() {
  return {
      "insulation",
      OHMWRIGHT_TEXT("Insulation to the frame"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "EN 50699, EN 50678 (before them DIN VDE 0701-0702): 500 V DC, class I at least 1 Mohm",
      {
          {"insulates", OHMWRIGHT_TEXT("To the frame it has {measured}; {least} is the least.")},
          {"insulates-past-range",
           OHMWRIGHT_TEXT("To the frame the tester shows more than its range; {least} is the least.")},
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
          {"electronics-inside",
           OHMWRIGHT_TEXT(
               "A 500 V test destroys the electronics of such a motor: its insulation is not tested so. Unplug it "
               "before anything beside it is.")},
          {"no-reading",
           OHMWRIGHT_TEXT(
               "Not judged: the insulation to the frame was not read, and the ohms of a winding say nothing of "
               "it.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: insulation is never read on a live part.")},
      }};
}

void judge_insulation(const Scene& scene) {
  const PreparedReading* reading = worst_to_frame(scene, false);
  if (reading == nullptr) {
    const bool live = worst_to_frame(scene, true) != nullptr;
    scene.findings.add(insulation, Outcome::silent, live ? only_live : no_reading);
    return;
  }
  if (scene.is_electronic() && by_tester(*reading)) {
    scene.findings.add(insulation, Outcome::undecided, electronics_inside);
    return;
  }
  constexpr double class_1_ohms = 1e6;
  const double least = scene.ratings == nullptr ? class_1_ohms : scene.ratings->insulation.value();
  if (reading->shown == Shown::value)
    judge_value(scene, *reading, least);
  else
    judge_past_range(scene, *reading, least);
}

}  // namespace ohmwright::fan_motor
