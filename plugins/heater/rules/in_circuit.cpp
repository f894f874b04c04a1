#include "rules/in_circuit.hpp"

#include <ohmwright/component/in_circuit.hpp>

namespace ohmwright::heater {

RuleDescriptor describe_in_circuit() {
  return in_circuit_rule(
      {.everything_between_probes =
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most. The points were proved "
                          "dead and swapped probes agree, so something between the probes is at fault: the element, a "
                          "link, a lead or a splice."),
       .clears_nothing =
           OHMWRIGHT_TEXT("In circuit the reading is not too high, but that clears nothing: a path beside an open or "
                          "aged element can bring it back into the limits. Lift one of its leads and read again.")});
}

void judge_in_circuit(const Scene& scene) {
  const auto see = [&](const PreparedReading& reading) -> std::optional<SeenInCircuit> {
    if (scene.ratings == nullptr) return std::nullopt;
    const RatedResistance limits = scene.ratings->cold();
    const Estimate lower(limits.lower);
    SeenInCircuit seen = seen_between(reading, &lower, Estimate(limits.upper), scene.evidence.sources());
    seen.upper = limits.upper;
    if (scene.cold) seen.read_alone = read_alone(scene.cold->outcome, scene.cold->stated_off);
    return seen;
  };
  ohmwright::judge_in_circuit({.rule = in_circuit, .is_of_it = is_ohms, .swapped = resistance_swapped, .see = see},
                              scene.evidence, scene.settings, scene.findings);
}

}  // namespace ohmwright::heater
