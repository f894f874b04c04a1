#include "rules/insulation.hpp"

#include <algorithm>
#include <limits>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::wiring {

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
  no_reading,
  only_live,
};

/// A test with fewer volts than this proves no insulation against the mains (EN 50699, EN 50678: 500 V, and 250 V where
/// a surge arrester would conduct; from memory) [V].
constexpr double least_test_volt = 250.0;

bool by_tester(const PreparedReading& reading) {
  const Estimate* volts_of_test = reading.condition(test_voltage);
  return volts_of_test != nullptr && volts_of_test->value() >= least_test_volt;
}

bool is_to_frame(const PreparedReading& reading) {
  return reading.measurand == insulation_resistance && !is_live(reading);
}

bool is_low(const PreparedReading& reading, double least) {
  return reading.shown == Shown::contact_closed || (reading.shown == Shown::value && reading.value.value() < least);
}

/// Whether `a` says more than `b`: a low one before a high one, the lower of two low ones, a tester's before an
/// ohmmeter's.
bool says_more(const PreparedReading& a, const PreparedReading& b, double least) {
  if (is_low(a, least) != is_low(b, least)) return is_low(a, least);
  if (is_low(a, least)) return a.value.value() < b.value.value();
  if (by_tester(a) != by_tester(b)) return by_tester(a);
  return a.shown == Shown::value && (b.shown != Shown::value || a.value.value() < b.value.value());
}

/// The reading that counts. A leak at one terminal is a leak, whatever the other terminal reads; but what was read wet
/// gives way to what was read later and no longer wet.
const PreparedReading* decisive_to_frame(const Scene& scene, double least) {
  const PreparedReading* last_not_wet = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (is_to_frame(reading) && reading.moisture != Moisture::wet) last_not_wet = &reading;
  const PreparedReading* decisive = nullptr;
  bool dry_to_come = last_not_wet != nullptr;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (&reading == last_not_wet) dry_to_come = false;
    if (!is_to_frame(reading) || (dry_to_come && reading.moisture == Moisture::wet)) continue;
    if (decisive == nullptr || says_more(reading, *decisive, least)) decisive = &reading;
  }
  return decisive;
}

bool any_live_to_frame(const Scene& scene) {
  const auto readings = scene.evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [](const PreparedReading& reading) {
    return reading.measurand == insulation_resistance && is_live(reading);
  });
}

void judge_past_range(const Scene& scene, const PreparedReading& reading, double least) {
  const bool tester = shows_more_than_range(reading) && by_tester(reading) && reading.range_full_scale >= least;
  Finding& finding = scene.findings.add(insulation, tester ? Outcome::within_limits : Outcome::undecided,
                                        tester ? insulates_past_range : ohmmeter_past_range);
  finding.holds_back = !tester;
  finding.limits.lower = in_ohms(least);
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
  finding.measured = in_ohms(reading.value.value());
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  finding.limits.lower = in_ohms(least);
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
      OHMWRIGHT_TEXT("Insulation to the frame or the wire beside it"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "EN 50699, EN 50678 (before them DIN VDE 0701-0702): 500 V DC; class I 1 Mohm, class II 2 Mohm, "
      "class III 0.25 Mohm",
      {
          {"insulates", OHMWRIGHT_TEXT("It has {measured} to the frame or the wire beside it; {least} is the least.")},
          {"insulates-past-range", OHMWRIGHT_TEXT("The tester shows more than its range; {least} is the least.")},
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
          {"no-reading", OHMWRIGHT_TEXT("Not judged: its insulation was not read.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: insulation is never read on a live part.")},
      }};
}

void judge_insulation(const Scene& scene) {
  const double least = least_to_frame(scene.ratings);
  const PreparedReading* reading = decisive_to_frame(scene, least);
  if (reading == nullptr)
    scene.findings.add(insulation, Outcome::silent, any_live_to_frame(scene) ? only_live : no_reading);
  else if (reading->shown == Shown::value)
    judge_value(scene, *reading, least);
  else
    judge_past_range(scene, *reading, least);
}

}  // namespace ohmwright::wiring
