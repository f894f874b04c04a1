#include "rules/in_circuit.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::fan_motor {

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
  everything_between_probes_anywhere,
  high_not_proved_anywhere,
  right_alone_anywhere,
  low_means_nothing_anywhere,
  clears_nothing_anywhere,
};

/// How far swapped probes may read apart and still agree, beside their own errors.
constexpr double swap_agreement = 0.02;

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

/// P(a good part reads that high) and P(it reads that low).
struct Sides {
  double not_above = 1.0;
  double not_below = 1.0;
};

Sides sides_of(const Scene& scene, const PreparedReading& reading, const LimitsThere& limits) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const auto sources = scene.evidence.sources();
  if (reading.shown == Shown::contact_open) return {0.0, 1.0};
  if (shows_more_than_range(reading))
    return {probability_between(limits.upper, sources, reading.range_full_scale, infinity), 1.0};
  Estimate above = reading.value;
  above.add_scaled(limits.upper, -1.0);
  Estimate over_lower = reading.value;
  over_lower.add_scaled(limits.lower, -1.0);
  return {probability_between(above, sources, -infinity, 0.0), probability_between(over_lower, sources, 0.0, infinity)};
}

/// The same text, where the limits had to hold for any temperature.
Text without_temperature(Text text) {
  switch (text) {
    case everything_between_probes:
      return everything_between_probes_anywhere;
    case high_not_proved:
      return high_not_proved_anywhere;
    case right_alone:
      return right_alone_anywhere;
    case low_means_nothing:
      return low_means_nothing_anywhere;
    case clears_nothing:
      return clears_nothing_anywhere;
    default:
      return text;
  }
}

void judge_one(const Scene& scene, const PreparedReading& reading) {
  if (scene.ratings == nullptr || !scene.ratings->winding) {
    scene.findings.add(in_circuit, Outcome::undecided, not_comparable);
    return;
  }
  const LimitsThere limits = limits_there(scene, reading);
  const Sides sides = sides_of(scene, reading, limits);
  const double least = 1.0 - scene.settings.confidence;
  const bool high = sides.not_above <= least;
  const bool proved = reading.supply == Supply::proved_dead &&
                      swapped_probes_agree(scene.evidence, reading, winding_swapped, swap_agreement);
  Text text = sides.not_below <= least ? low_means_nothing : clears_nothing;
  if (scene.wound) text = beside_others;
  if (high) text = proved ? everything_between_probes : high_not_proved;
  if (high && proved && scene.wound && scene.wound->stated_off) text = right_alone;
  const Outcome outcome = text == everything_between_probes ? Outcome::out_of_limits : Outcome::undecided;
  if (reading.condition(part_temperature) == nullptr) text = without_temperature(text);
  Finding& finding = scene.findings.add(in_circuit, outcome, text);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = std::min(sides.not_above, sides.not_below);
  finding.limits.lower = ohms(limits.lower.value());
  finding.limits.upper = ohms(limits.upper.value());
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
  tell(finding, "coldest", AnyQuantity(Temperature::from_celsius(coldest_celsius)));
  tell(finding, "hottest", AnyQuantity(Temperature::from_celsius(hottest_celsius)));
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
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most at its temperature. The "
                          "points were proved "
                          "dead and swapped probes agree, so something between the probes is at fault: the winding, "
                          "its fuse, a lead or a splice.")},
          {"high-not-proved",
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most. Prove the points dead, "
                          "then swap the probes and read again.")},
          {"low-means-nothing",
           OHMWRIGHT_TEXT(
               "In circuit it reads too low, which decides nothing: another path lies beside it. Lift one of "
               "its leads and read again.")},
          {"clears-nothing",
           OHMWRIGHT_TEXT("In circuit the reading is not too high, but that clears nothing: a path beside an open "
                          "winding can bring it back into the limits. Lift one of its leads and read again.")},
          {"beside-others",
           OHMWRIGHT_TEXT("In circuit other parts lie beside it; what it reads alone is what counts.")},
          {"not-comparable", OHMWRIGHT_TEXT("A reading in circuit without ratings has nothing to be compared with.")},
          {"no-in-circuit", OHMWRIGHT_TEXT("Not judged: no reading was taken in circuit.")},
          {"only-live", OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing.")},
          {"right-alone",
           OHMWRIGHT_TEXT("In circuit it reads above the {upper} that a good one has at most, though it was read alone "
                          "too, and that counts: look at the lead, splice or connector between it and the probes.")},
          {"everything-between-probes-anywhere",
           OHMWRIGHT_TEXT(
               "In circuit it reads above the {upper} that a good one has at most, however warm it is (up to "
               "{hottest}). The points were proved dead and swapped probes agree, so something between the probes is "
               "at fault: the winding, its fuse, a lead or a splice.")},
          {"high-not-proved-anywhere",
           OHMWRIGHT_TEXT(
               "In circuit it reads above the {upper} that a good one has at most, however warm it is (up to "
               "{hottest}). Prove the points dead, then swap the probes and read again.")},
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

}  // namespace ohmwright::fan_motor
