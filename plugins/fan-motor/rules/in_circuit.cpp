#include "rules/in_circuit.hpp"

#include <ohmwright/component/in_circuit.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::fan_motor {

namespace {

/// Where the limits had to hold for any temperature.
enum Text : TextIndex {
  everything_between_probes_anywhere = InCircuitText::first_own,
  high_not_proved_anywhere,
  right_alone_anywhere,
  low_means_nothing_anywhere,
  clears_nothing_anywhere,
  perhaps_its_protector,
};

// Any temperature that a motor in an appliance has (common practice, no source); taken where its own is not known.
constexpr double coldest_celsius = -30.0;
constexpr double hottest_celsius = 100.0;

/// An end of the limits of a good winding [ohm], where it was read, with what its temperature leaves open.
Estimate limit_there(const Scene& scene, const PreparedReading& reading, double at_reference, double else_celsius) {
  const double k = scene.ratings->conductor_constant;
  const Temperature reference = scene.ratings->reference_temperature;
  const Estimate* temperature = reading.condition(part_temperature);
  const Temperature t =
      temperature != nullptr ? Temperature::from_kelvin(temperature->value()) : Temperature::from_celsius(else_celsius);
  Estimate limit(at_reference * winding_factor(k, reference, t));
  if (temperature != nullptr) limit.add_uncertainty(*temperature, at_reference / (k + reference.celsius()));
  return limit;
}

struct LimitsThere {
  Estimate lower;
  Estimate upper;
};

LimitsThere limits_there(const Scene& scene, const PreparedReading& reading) {
  const Span at_reference = *scene.ratings->winding_limits();
  return {limit_there(scene, reading, at_reference.lower, coldest_celsius),
          limit_there(scene, reading, at_reference.upper, hottest_celsius)};
}

/// The same text, where the limits had to hold for any temperature.
TextIndex without_temperature(TextIndex text) {
  switch (text) {
    case InCircuitText::everything_between_probes:
      return everything_between_probes_anywhere;
    case InCircuitText::high_not_proved:
      return high_not_proved_anywhere;
    case InCircuitText::right_alone:
      return right_alone_anywhere;
    case InCircuitText::low_means_nothing:
      return low_means_nothing_anywhere;
    case InCircuitText::clears_nothing:
      return clears_nothing_anywhere;
    default:
      return text;
  }
}

ReadAlone what_it_reads_alone(const Scene& scene) {
  if (!scene.wound) return ReadAlone::no;
  const Span limits = *scene.ratings->winding_limits();
  const Conformance p = conformance_of(scene.wound->ohms, scene.evidence.sources(), limits.lower, limits.upper);
  return read_alone(decide(p, scene.settings.confidence), scene.wound->stated_off);
}

/// A good one whose protector opened in the heat reads open in circuit as well.
void leave_to_its_protector(Finding& finding) {
  finding.outcome = Outcome::undecided;
  finding.text = perhaps_its_protector;
  finding.holds_back = true;
  finding.probability = 1.0;
}

}  // namespace

RuleDescriptor describe_in_circuit() {
  return in_circuit_rule(
      {.everything_between_probes =
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most at its temperature. The "
                          "points were proved dead and swapped probes agree, so something between the probes is at "
                          "fault: the winding, its fuse, a lead or a splice."),
       .clears_nothing =
           OHMWRIGHT_TEXT("In circuit the reading is not too high, but that clears nothing: a path beside an open "
                          "winding can bring it back into the limits. Lift one of its leads and read again.")},
      {
          {"everything-between-probes-anywhere",
           OHMWRIGHT_TEXT(
               "In circuit it reads above the {upper} that a good one has at most, however warm it is (up to "
               "{hottest}). The points were proved dead and swapped probes agree, so something between the probes is "
               "at fault: the winding, its fuse, a lead or a splice.")},
          {"high-not-proved-anywhere",
           OHMWRIGHT_TEXT(
               "In circuit it reads above the {upper} that a good one has at most, however warm it is (up to "
               "{hottest}). A charged capacitor or a powered board can do that too: prove the points dead, then swap "
               "the probes and read again.")},
          {"right-alone-anywhere",
           OHMWRIGHT_TEXT(
               "In circuit it reads above the {upper} that a good one has at most, however warm it is (up to "
               "{hottest}), though it was read alone too, and that counts: look at the lead, splice or connector "
               "between it and the probes.")},
          {"low-means-nothing-anywhere",
           OHMWRIGHT_TEXT(
               "In circuit it reads less than the {lower} that a good one has at least, however cold it is (down to "
               "{coldest}), which decides nothing: another path lies beside it. Lift one of its leads and read "
               "again.")},
          {"clears-nothing-anywhere",
           OHMWRIGHT_TEXT(
               "In circuit the reading is not too high, its temperature not given and taken as anything from "
               "{coldest} to {hottest}; but that clears nothing: a path beside an open winding can bring it back into "
               "the limits. Lift one of its leads and read again.")},
          {"perhaps-its-protector",
           OHMWRIGHT_TEXT(
               "In circuit it reads open, and that it is cool was not said. In a motor that ran, or stood still under "
               "power, a protector may have opened, which closes when the motor has cooled; else something between the "
               "probes is open.")},
      });
}

void judge_in_circuit(const Scene& scene) {
  const auto see = [&](const PreparedReading& reading) -> std::optional<SeenInCircuit> {
    if (scene.ratings == nullptr || !scene.ratings->winding) return std::nullopt;
    const LimitsThere limits = limits_there(scene, reading);
    SeenInCircuit seen = seen_between(reading, &limits.lower, limits.upper, scene.evidence.sources());
    seen.lower = limits.lower.value();
    seen.upper = limits.upper.value();
    seen.read_alone = what_it_reads_alone(scene);
    return seen;
  };
  const auto tell_temperatures = [](const PreparedReading& reading, Finding& finding) {
    if (finding.text == InCircuitText::not_comparable) return;
    if (finding.outcome == Outcome::out_of_limits && shows_more_than_range(reading) && !is_said_cool(reading)) {
      leave_to_its_protector(finding);
      return;
    }
    if (reading.condition(part_temperature) == nullptr) finding.text = without_temperature(finding.text);
    tell(finding, "coldest", AnyQuantity(Temperature::from_celsius(coldest_celsius)));
    tell(finding, "hottest", AnyQuantity(Temperature::from_celsius(hottest_celsius)));
  };
  ohmwright::judge_in_circuit(
      {.rule = in_circuit, .is_of_it = is_ohms, .swapped = winding_swapped, .see = see, .tell = tell_temperatures},
      scene.evidence, scene.settings, scene.findings);
}

bool asks_to_prove_dead_and_swap(const Scene& scene) {
  return ohmwright::asks_to_prove_dead_and_swap(scene.findings, in_circuit, {high_not_proved_anywhere});
}

bool asks_to_read_alone(const Scene& scene) {
  return ohmwright::asks_to_read_alone(scene.findings, in_circuit, {right_alone_anywhere});
}

bool may_be_its_protector_in_circuit(const Scene& scene) {
  return scene.findings.has_text(in_circuit, perhaps_its_protector);
}

}  // namespace ohmwright::fan_motor
