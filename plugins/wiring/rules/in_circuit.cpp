#include "rules/in_circuit.hpp"

#include <ohmwright/component/in_circuit.hpp>

namespace ohmwright::wiring {

namespace {

/// Alone, or under its load: a drop at a known current is that of the wire, whatever lies beside it.
ReadAlone what_it_reads_alone(const Scene& scene) {
  if (scene.drop && !scene.drop->less_than_copper) return read_alone(scene.drop->outcome, true);
  if (!scene.ohms || scene.ohms->implausible()) return ReadAlone::no;
  return read_alone(scene.ohms->outcome, scene.ohms->stated_off);
}

}  // namespace

RuleDescriptor describe_in_circuit() {
  return in_circuit_rule(
      {.everything_between_probes =
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most. The points were proved "
                          "dead and swapped probes agree: what lies between the probes is open or bad, since other "
                          "paths can only make it read lower."),
       .clears_nothing =
           OHMWRIGHT_TEXT("In circuit it does not read too high, but that clears nothing: another wire or a winding "
                          "beside an open lead reads low as well. Pull one of its ends off and read again."),
       .right_alone =
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most, though it was read alone "
                          "or under load too, and that counts: look at what else lies between the probes, and press "
                          "them on bare metal."),
       .beside_others =
           OHMWRIGHT_TEXT("In circuit other parts lie beside it; what it reads alone or under load is what counts.")});
}

void judge_in_circuit(const Scene& scene) {
  const auto see = [&](const PreparedReading& reading) -> std::optional<SeenInCircuit> {
    if (!scene.knows_limit()) return std::nullopt;
    const Estimate limit = scene.limit_at(reading);
    SeenInCircuit seen = seen_between(reading, nullptr, limit, scene.evidence.sources());
    seen.upper = limit.value();
    seen.read_alone = what_it_reads_alone(scene);
    return seen;
  };
  ohmwright::judge_in_circuit({.rule = in_circuit, .is_of_it = is_ohms, .swapped = resistance_swapped, .see = see},
                              scene.evidence, scene.settings, scene.findings);
}

}  // namespace ohmwright::wiring
