#include "rules/in_circuit.hpp"

#include <algorithm>
#include <limits>

#include <ohmwright/verdict/decision.hpp>

#include "rules/open_sensor.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex {
  everything_between_probes,
  high_not_proved,
  low_means_nothing,
  clears_nothing,
  beside_others,
  not_comparable,
  no_in_circuit,
  only_live,
  right_alone,
};

/// Volts that would move an ohmmeter's reading: its own test voltage is a few tenths of a volt.
constexpr double near_zero_volts = 0.01;
/// How far swapped probes may read apart and still agree, beside their own errors.
constexpr double swap_agreement = 0.01;

/// Whether the points were shown to carry no voltage: proved dead, or read near zero volts.
bool points_near_zero_volts(const Scene& scene, const PreparedReading& reading) {
  if (reading.supply == Supply::proved_dead) return true;
  const auto readings = scene.evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [](const PreparedReading& other) {
    return other.measurand == voltage && !is_live(other) && other.shown == Shown::value &&
           std::abs(other.displayed) <= near_zero_volts;
  });
}

/// P(good part | at or above its lower, at or below its upper limit).
struct Sides {
  double not_above = 1.0;
  double not_below = 1.0;
};

std::optional<Sides> sides_of(const Scene& scene, const PreparedReading& reading) {
  if (shows_more_than_range(reading)) return Sides{probability_past_range(scene, reading), 1.0};
  if (scene.ratings == nullptr) return std::nullopt;
  const std::optional<Deviation> deviation = deviation_of(*scene.ratings, reading);
  if (!deviation) return std::nullopt;
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const auto sources = scene.evidence.sources();
  return Sides{probability_between(deviation->log, sources, -infinity, deviation->limits.upper),
               probability_between(deviation->log, sources, deviation->limits.lower, infinity)};
}

void judge_one(const Scene& scene, const PreparedReading& reading) {
  const std::optional<Sides> sides = sides_of(scene, reading);
  Outcome outcome = Outcome::undecided;
  Text text = not_comparable;
  if (sides) {
    const double least = 1.0 - scene.settings.confidence;
    const bool low = sides->not_below <= least;
    const bool high = sides->not_above <= least;
    const bool proved = points_near_zero_volts(scene, reading) &&
                        swapped_probes_agree(scene.evidence, reading, resistance_swapped, swap_agreement);
    text = low ? low_means_nothing : clears_nothing;
    if (scene.fused) text = beside_others;
    if (high) text = proved ? everything_between_probes : high_not_proved;
    if (high && proved && scene.fused && !scene.connection_unstated) text = right_alone;
    if (text == everything_between_probes) outcome = Outcome::out_of_limits;
  }
  Finding& finding = scene.findings.add(in_circuit, outcome, text);
  if (sides) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = std::min(sides->not_above, sides->not_below);
    finding.limits.upper = ohms(highest_of_good_part(scene, reading));
    tell(finding, "upper", *finding.limits.upper);
  }
  if (reading.shown == Shown::value) finding.measured = ohms(reading.value.value());
}

}  // namespace

RuleDescriptor describe_in_circuit() {
  return {
      "in-circuit",
      OHMWRIGHT_TEXT("Readings in circuit"),
      false,
      can_condemn | can_be_undecided,
      "Kirchhoff: a passive path beside a part can only lower the resistance at its own terminals",
      {
          {"everything-between-probes",
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good part has at most. The points carry no "
                          "voltage and swapped probes agree, so something between the probes is at fault: the sensor, "
                          "its lead, a splice or the connector.")},
          {"high-not-proved",
           OHMWRIGHT_TEXT(
               "In circuit it reads above the {upper} that a good part has at most. A charged capacitor or a "
               "powered board can do that too: read the volts between the points, then swap the probes.")},
          {"low-means-nothing",
           OHMWRIGHT_TEXT("In circuit it reads too low, which decides nothing: another path lies beside the part. Lift "
                          "one of its leads, or pull its connector, and read again.")},
          {"clears-nothing",
           OHMWRIGHT_TEXT("In circuit the reading is not too high, but that clears nothing: a path beside a drifted "
                          "part can bring it back into the limits. Lift one of its leads and read again.")},
          {"beside-others",
           OHMWRIGHT_TEXT("In circuit other parts lie beside it; what it reads alone is what counts.")},
          {"not-comparable",
           OHMWRIGHT_TEXT("A reading in circuit without curve and temperature has nothing to be compared with.")},
          {"no-in-circuit", OHMWRIGHT_TEXT("Not judged: no reading was taken in circuit.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"right-alone",
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most, though it was read alone "
                          "too, and that counts: look at the lead, splice or connector between it and the probes.")},
      }};
}

void judge_in_circuit(const Scene& scene) {
  bool judged = false;
  Text silence = no_in_circuit;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || !is_in_circuit(reading)) continue;
    if (is_live(reading)) {
      silence = only_live;
      continue;
    }
    judge_one(scene, reading);
    judged = true;
  }
  if (!judged) scene.findings.add(in_circuit, Outcome::silent, silence);
}

}  // namespace ohmwright::defrost_sensor
