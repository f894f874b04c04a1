#include "rules/drop_under_load.hpp"

#include <cmath>
#include <limits>

namespace ohmwright::wiring {

namespace {

enum Text : TextIndex {
  small_drop,
  large_drop,
  not_told_apart,
  no_such_wire,
  volts_without_current,
  no_current_flows,
  no_drop,
  no_current,
  no_limit,
  not_live,
};

/// More than this across a wire that carries nothing is a gap, or a ghost (common practice, no source) [V].
constexpr double least_gap_volt = 1.0;

/// The last drop that can be judged, else the last at all.
const PreparedReading* drop_reading(const Scene& scene) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != drop || reading.shown != Shown::value) continue;
    if (last == nullptr || is_drop_under_load(reading) || !is_drop_under_load(*last)) last = &reading;
  }
  return last;
}

void judge_drop(const Scene& scene) {
  const DropSeen& drop = *scene.drop;
  Text text = not_told_apart;
  if (drop.outcome == Outcome::within_limits) text = small_drop;
  if (drop.outcome == Outcome::out_of_limits) text = large_drop;
  if (drop.less_than_copper) text = no_such_wire;
  const Outcome outcome = drop.less_than_copper ? Outcome::undecided : drop.outcome;
  Finding& finding = scene.findings.add(drop_under_load, outcome, text);
  finding.holds_back = drop.less_than_copper;
  finding.measured = in_volts(drop.volt);
  finding.measured_uncertainty = drop.reading->value.standard_uncertainty();
  finding.limits.upper = in_volts(drop.limit * drop.ampere);
  tell(finding, "drop", *finding.measured);
  tell(finding, "allowed", *finding.limits.upper);
  tell(finding, "current", in_amperes(drop.ampere));
  tell(finding, "resistance", in_ohms(drop.ohms()));
  tell(finding, "heat", in_watts(drop.volt * drop.ampere));
  if (drop.less_than_copper) return;  // what is not of this wire must not enter a probability
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = drop.p.within;
  finding.judged = drop.excess;
  finding.judged_lower = -std::numeric_limits<double>::infinity();
  finding.judged_upper = 0.0;
}

void say_no_current(const Scene& scene, const PreparedReading& reading) {
  const double volt = std::abs(reading.value.value());
  const bool gap = volt > least_gap_volt;
  Finding& finding =
      scene.findings.add(drop_under_load, Outcome::undecided, gap ? volts_without_current : no_current_flows);
  finding.holds_back = gap;
  tell(finding, "drop", in_volts(volt));
}

}  // namespace

RuleDescriptor describe_drop_under_load() {
  return {
      "voltage-drop",
      OHMWRIGHT_TEXT("Voltage drop under load"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "Ohm and Joule: drop I*r, heat I^2*r; the most as the end-to-end rule has it",
      {
          {"small-drop",
           OHMWRIGHT_TEXT("At {current} it drops {drop}, where {allowed} are allowed, and makes {heat} of heat.")},
          {"large-drop",
           OHMWRIGHT_TEXT("At {current} it drops {drop}, where {allowed} are allowed. That makes {heat} of heat in one "
                          "small spot: it burns. Do not let it run.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT(
               "At {current} it drops {drop}, where {allowed} are allowed: too near to tell apart with these "
               "instruments.")},
          {"no-such-wire",
           OHMWRIGHT_TEXT(
               "At {current} it drops only {drop}, less than so much copper alone would: what was read is not "
               "all of it.")},
          {"volts-without-current",
           OHMWRIGHT_TEXT(
               "There are {drop} across it and no current flows: it is open, or the circuit is open elsewhere "
               "too and the meter shows a ghost.")},
          {"no-current-flows",
           OHMWRIGHT_TEXT("There are {drop} across it and no current flows: without a load a drop says nothing.")},
          {"no-drop", OHMWRIGHT_TEXT("Not judged: the volts across it were not read while its load ran.")},
          {"no-current", OHMWRIGHT_TEXT("A drop means nothing without the current that made it (--load).")},
          {"no-limit", OHMWRIGHT_TEXT("Not judged: what a good one may have is not known; name its ratings.")},
          {"not-live",
           OHMWRIGHT_TEXT("Not judged: a drop is read while the load runs, or with both ends off and a current of a "
                          "bench supply through it (--lead-off).")},
      }};
}

void judge_drop_under_load(const Scene& scene) {
  const PreparedReading* reading = drop_reading(scene);
  if (reading == nullptr || !is_drop_under_load(*reading))
    scene.findings.add(drop_under_load, Outcome::silent, reading == nullptr ? no_drop : not_live);
  else if (reading->condition(load_current) == nullptr)
    scene.findings.add(drop_under_load, Outcome::undecided, no_current);
  else if (!has_current(*reading))
    say_no_current(scene, *reading);
  else if (!scene.drop)
    scene.findings.add(drop_under_load, Outcome::silent, no_limit);
  else
    judge_drop(scene);
}

}  // namespace ohmwright::wiring
