#include "rules/moisture_leakage.hpp"

#include <limits>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex {
  no_leakage,
  leaks,
  not_told_apart,
  higher_when_wet,
  high_though_wet,
  dry_it_first,
  no_wet_reading,
  no_ratings,
  connection_unstated,
  leaks_a_little,
};

/// The wet readings that lie farthest from the curve, either way: a leak comes and goes with where the water stands.
struct WetReadings {
  std::optional<Deviation> lowest;
  std::optional<Deviation> highest;
};

WetReadings wet_readings(const Scene& scene) {
  WetReadings found;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || !is_wet(reading) || is_live(reading) || is_in_circuit(reading) || is_within_leads(reading))
      continue;
    const std::optional<Deviation> deviation = deviation_of(*scene.ratings, reading);
    if (!deviation) continue;
    if (!found.lowest || deviation->log.value() < found.lowest->log.value()) found.lowest = deviation;
    if (!found.highest || deviation->log.value() > found.highest->log.value()) found.highest = deviation;
  }
  return found;
}

void show(const Deviation& wet, Finding& finding) {
  finding.measured = ohms(wet.reading->value.value());
  finding.meaning = ProbabilityMeaning::within_limits;
  tell(finding, "wet_percent", percent(wet.log.value()));
}

/// Wet only: water can but lower the reading, so it condemns from above and clears nothing.
void judge_wet_alone(const Scene& scene, const Deviation& wet) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const Conformance p = conformance_of(wet.log, scene.evidence.sources(), -infinity, wet.limits.upper);
  const bool high = decide(p, scene.settings.confidence) == Outcome::out_of_limits;
  Finding& finding = scene.findings.add(moisture_leakage, high ? Outcome::out_of_limits : Outcome::undecided,
                                        high ? high_though_wet : dry_it_first);
  show(wet, finding);
  finding.probability = p.within;
}

/// Resistance beside the sensor that would bring the dry one down to the wet reading [ohm]; nothing where none would.
std::optional<double> leakage_path(const Deviation& wet, double dry_log) {
  const double conductance = 1.0 / wet.reading->value.value() - std::exp(-wet.log_nominal - dry_log);
  if (conductance <= 0.0) return std::nullopt;
  return 1.0 / conductance;
}

/// How much higher it read wet than dry, as a logarithm.
Estimate rise_of(const Scene& scene, const Deviation& wet) {
  Estimate rise = wet.log;
  rise.add_scaled(scene.fused->log, -1.0);
  return rise;
}

bool can_be_held_against_dry(const Scene& scene, const WetReadings& wet) {
  return wet.lowest && scene.fused && fits({scene.usable.data(), scene.usable.size()}, *wet.lowest);
}

void judge_against_dry(const Scene& scene, const Deviation& wet) {
  const Estimate fall = rise_of(scene, wet);
  const Conformance p = conformance_of(fall, scene.evidence.sources(), wet.limits.lower, wet.limits.upper);
  Outcome outcome = decide(p, scene.settings.confidence);
  Text text = outcome == Outcome::within_limits ? no_leakage : not_told_apart;
  if (outcome == Outcome::out_of_limits) text = fall.value() < 0.0 ? leaks : higher_when_wet;
  if (text == leaks && wet.reading->connection == Connection::unstated) text = connection_unstated;
  if (text == connection_unstated) outcome = Outcome::undecided;
  if (text == higher_when_wet) outcome = Outcome::undecided;  // water cannot do that: a reading is wrong, not the part
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const double lower_when_wet = probability_between(fall, scene.evidence.sources(), -infinity, 0.0);
  if (text == no_leakage && fall.value() < 0.0 && lower_when_wet >= scene.settings.confidence) text = leaks_a_little;
  Finding& finding = scene.findings.add(moisture_leakage, outcome, text);
  finding.holds_back = text == connection_unstated || text == higher_when_wet;
  show(wet, finding);
  finding.probability = p.within;
  finding.judged = fall;
  finding.judged_lower = wet.limits.lower;
  finding.judged_upper = wet.limits.upper;
  const bool one_dry = scene.usable.size() == 1;  // then it is told as the rule on it tells it
  tell(finding, "dry_percent", percent(one_dry ? scene.usable[0].shown_log() : scene.fused->log.value()));
  if (const std::optional<double> path = leakage_path(wet, scene.fused->log.value()))
    tell(finding, "path", ohms(*path));
}

}  // namespace

RuleDescriptor describe_moisture_leakage() {
  return {
      "moisture-leakage",
      OHMWRIGHT_TEXT("Wet against dry"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "JCGM 106:2012; a change when wet beyond the part's own tolerance condemns (ours)",
      {
          {"no-leakage",
           OHMWRIGHT_TEXT("Wet and dry it reads the same ({wet_percent} % and {dry_percent} % from its curve): no "
                          "leakage.")},
          {"leaks",
           OHMWRIGHT_TEXT("Against its curve it reads {wet_percent} % wet and {dry_percent} % dry: about {path} leaks "
                          "beside it when wet. Dry on the bench it passes, which is why the fault comes and goes. The "
                          "leak may lie in the splice or the connector.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT(
               "Against its curve it reads {wet_percent} % wet and {dry_percent} % dry: too uncertain to tell a "
               "leakage from the errors of reading.")},
          {"higher-when-wet",
           OHMWRIGHT_TEXT(
               "Against its curve it reads {wet_percent} % wet and {dry_percent} % dry: higher when wet, which "
               "water cannot do. One of the temperatures or contacts was not what it seemed; read "
               "again.")},
          {"high-though-wet",
           OHMWRIGHT_TEXT("Even wet it reads {wet_percent} % from its curve, above the limits; water can only lower a "
                          "reading.")},
          {"dry-it-first",
           OHMWRIGHT_TEXT("Wet it reads {wet_percent} % from its curve. Water can lower a reading, so this neither "
                          "condemns nor clears it: dry it and read again, and keep this reading.")},
          {"no-wet-reading",
           OHMWRIGHT_TEXT("Not judged: it was not read as found, wet and cold, where a leakage would show.")},
          {"no-ratings", OHMWRIGHT_TEXT("Not judged: the curve of this part is not known.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT(
               "Against its curve it reads {wet_percent} % wet and {dry_percent} % dry, but it was not said whether "
               "the connector was off when it was wet: if it was, the sensor leaks; if not, another path lay beside "
               "it.")},
          {"leaks-a-little",
           OHMWRIGHT_TEXT("Against its curve it reads {wet_percent} % wet and {dry_percent} % dry: about {path} leaks "
                          "beside it when wet, a change still within the part's own tolerance.")},
      }};
}

bool reads_higher_when_wet(const Scene& scene) {
  if (scene.ratings == nullptr) return false;
  const WetReadings wet = wet_readings(scene);
  if (!can_be_held_against_dry(scene, wet)) return false;
  const Estimate rise = rise_of(scene, *wet.lowest);
  const Conformance p =
      conformance_of(rise, scene.evidence.sources(), wet.lowest->limits.lower, wet.lowest->limits.upper);
  const bool both_above = scene.fused->log.value() > scene.fused->limits.upper;
  return !both_above && rise.value() > 0.0 && decide(p, scene.settings.confidence) == Outcome::out_of_limits;
}

void judge_moisture_leakage(const Scene& scene) {
  if (scene.ratings == nullptr) {
    scene.findings.add(moisture_leakage, Outcome::silent, no_ratings);
    return;
  }
  const WetReadings wet = wet_readings(scene);
  if (!wet.lowest)
    scene.findings.add(moisture_leakage, Outcome::silent, no_wet_reading);
  else if (can_be_held_against_dry(scene, wet))
    judge_against_dry(scene, *wet.lowest);
  else
    judge_wet_alone(scene, *wet.highest);
}

}  // namespace ohmwright::defrost_sensor
