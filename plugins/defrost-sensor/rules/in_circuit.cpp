#include "rules/in_circuit.hpp"

#include <limits>

#include <ohmwright/component/in_circuit.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "rules/open_sensor.hpp"

namespace ohmwright::defrost_sensor {

namespace {

/// Judged in logarithms, as a sensor's curve has it.
std::optional<SeenInCircuit> chances_of(const Scene& scene, const PreparedReading& reading) {
  if (shows_more_than_range(reading)) return SeenInCircuit{.reads_so_high = probability_past_range(scene, reading)};
  if (scene.ratings == nullptr) return std::nullopt;
  const std::optional<Deviation> deviation = deviation_of(*scene.ratings, reading);
  if (!deviation) return std::nullopt;
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const auto sources = scene.evidence.sources();
  return SeenInCircuit{
      .reads_so_high = probability_between(deviation->log, sources, -infinity, deviation->limits.upper),
      .reads_so_low = probability_between(deviation->log, sources, deviation->limits.lower, infinity)};
}

ReadAlone what_it_reads_alone(const Scene& scene) {
  if (!scene.fused) return ReadAlone::no;
  const Conformance p =
      conformance_of(scene.fused->log, scene.evidence.sources(), scene.fused->limits.lower, scene.fused->limits.upper);
  return read_alone(decide(p, scene.settings.confidence), !scene.connection_unstated);
}

}  // namespace

RuleDescriptor describe_in_circuit() {
  return in_circuit_rule(
      {.everything_between_probes =
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good part has at most. The points carry no "
                          "voltage and swapped probes agree, so something between the probes is at fault: the sensor, "
                          "its lead, a splice or the connector."),
       .clears_nothing =
           OHMWRIGHT_TEXT("In circuit the reading is not too high, but that clears nothing: a path beside a drifted "
                          "part can bring it back into the limits. Lift one of its leads and read again."),
       .high_not_proved =
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good part has at most. A charged capacitor or "
                          "a powered board can do that too: read the volts between the points, then swap the probes."),
       .low_means_nothing =
           OHMWRIGHT_TEXT("In circuit it reads too low, which decides nothing: another path lies beside the part. Lift "
                          "one of its leads, or pull its connector, and read again."),
       .not_comparable =
           OHMWRIGHT_TEXT("A reading in circuit without curve and temperature has nothing to be compared with.")});
}

void judge_in_circuit(const Scene& scene) {
  const auto see = [&](const PreparedReading& reading) {
    std::optional<SeenInCircuit> seen = chances_of(scene, reading);
    if (!seen) return seen;
    seen->upper = highest_of_good_part(scene, reading);
    seen->read_alone = what_it_reads_alone(scene);
    return seen;
  };
  ohmwright::judge_in_circuit(
      {.rule = in_circuit, .is_of_it = is_ohms, .swapped = resistance_swapped, .volts = voltage, .see = see},
      scene.evidence, scene.settings, scene.findings);
}

}  // namespace ohmwright::defrost_sensor
