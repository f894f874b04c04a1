#include "rules/seated_on_coil.hpp"

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex { follows_coil, off_the_coil, not_told_apart, no_coil_temperature, no_ratings };

/// How far a well clipped sensor may be from the coil beside it (common practice, no source): so this rule never
/// condemns, it sends the technician to look.
constexpr double seat_kelvin = 2.0;

std::optional<Deviation> against_coil(const Scene& scene) {
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || is_live(reading) || is_in_circuit(reading) || is_within_leads(reading)) continue;
    std::optional<Deviation> found = deviation_of(*scene.ratings, reading, coil_temperature);
    if (found) return found;
  }
  return std::nullopt;
}

}  // namespace

RuleDescriptor describe_seated_on_coil() {
  return {
      "seated-on-coil",
      OHMWRIGHT_TEXT("Seated on the coil"),
      false,
      can_pass | can_be_undecided,
      "common practice, no source: 2 K between a clipped sensor and the coil, beside the sensor's tolerance",
      {
          {"follows-coil",
           OHMWRIGHT_TEXT("Its resistance says {believed}, the coil beside it has {coil}: it follows the coil.")},
          {"off-the-coil",
           OHMWRIGHT_TEXT("Its resistance says {believed}, the coil beside it has {coil}. The clip is loose or "
                          "misplaced, ice stands between, or the sensor is off: seat it again, then check it in ice "
                          "water.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT("Its resistance says {believed}, the coil beside it has {coil}: too uncertain to say whether "
                          "it follows the coil.")},
          {"no-coil-temperature",
           OHMWRIGHT_TEXT("Not judged: the temperature of the coil beside the clipped sensor was not measured.")},
          {"no-ratings", OHMWRIGHT_TEXT("Not judged: the curve of this part is not known.")},
      }};
}

void judge_seated_on_coil(const Scene& scene) {
  const std::optional<Deviation> found = scene.ratings == nullptr ? std::nullopt : against_coil(scene);
  if (!found) {
    scene.findings.add(seated_on_coil, Outcome::silent, scene.ratings == nullptr ? no_ratings : no_coil_temperature);
    return;
  }
  const Curve& curve = *scene.ratings->curve;
  const double seat = seat_kelvin * std::abs(curve.log_slope(found->temperature));
  const double lower = found->limits.lower - seat;
  const double upper = found->limits.upper + seat;
  const Conformance p = conformance_of(found->log, scene.evidence.sources(), lower, upper);
  const Outcome outcome = decide(p, scene.settings.confidence);
  const bool follows = outcome == Outcome::within_limits;
  const Text text = follows ? follows_coil : outcome == Outcome::out_of_limits ? off_the_coil : not_told_apart;
  Finding& finding = scene.findings.add(seated_on_coil, follows ? Outcome::within_limits : Outcome::undecided, text);
  const Temperature believed = found->temperature + found->kelvin(curve);
  finding.measured = AnyQuantity(believed);
  finding.measured_uncertainty = found->log.standard_uncertainty() / std::abs(curve.log_slope(found->temperature));
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  tell(finding, "believed", AnyQuantity(believed));
  tell(finding, "coil", AnyQuantity(found->temperature));
}

}  // namespace ohmwright::defrost_sensor
