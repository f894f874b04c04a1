#include "rules/twin_comparison.hpp"

#include <algorithm>

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex { compared, far_apart, no_twin, no_reading };

/// How far good twins of one class may lie apart: two tolerances of 5 % (common practice, no source).
constexpr double twins_apart = 0.10;

const PreparedReading* reading_of(const Scene& scene, MeasurandIndex measurand) {
  for (const PreparedReading& reading : scene.evidence.readings()) {
    const bool alone = !is_live(reading) && !is_in_circuit(reading) && !is_wet(reading);
    if (reading.measurand == measurand && alone && reading.shown == Shown::value && reading.value.value() > 0.0)
      return &reading;
  }
  return nullptr;
}

}  // namespace

RuleDescriptor describe_twin_comparison() {
  return {
      "twin-comparison",
      OHMWRIGHT_TEXT("Against a twin at the same temperature"),
      false,
      can_be_undecided,
      "common practice, no source: two sensors of one kind side by side; a common gain error cancels (GUM 5.2)",
      {
          {"compared",
           OHMWRIGHT_TEXT("It reads {measured}, its twin {twin} at the same temperature: {difference_percent} % apart. "
                          "Good twins of one class lie within a few percent of each other; both may be off together.")},
          {"far-apart",
           OHMWRIGHT_TEXT(
               "It reads {measured}, its twin {twin} at the same temperature: {difference_percent} % apart. "
               "Twins this far apart are not both good, or not of one class: read both in ice water; the one "
               "that misses its chart there is the bad one.")},
          {"no-twin", OHMWRIGHT_TEXT("Not compared: no twin was read at the same temperature.")},
          {"no-reading", OHMWRIGHT_TEXT("Not compared: the part itself was not read alone and dry.")},
      }};
}

bool twins_lie_far_apart(const Scene& scene) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [](const Finding& finding) {
    return finding.rule == twin_comparison && finding.text == far_apart && finding.outcome == Outcome::undecided;
  });
}

void judge_twin_comparison(const Scene& scene) {
  const PreparedReading* twin = reading_of(scene, twin_resistance);
  const PreparedReading* own = reading_of(scene, resistance);
  if (twin == nullptr || own == nullptr) {
    scene.findings.add(twin_comparison, Outcome::silent, twin == nullptr ? no_twin : no_reading);
    return;
  }
  Estimate difference(std::log(own->value.value() / twin->value.value()));
  difference.add_uncertainty(own->value, 1.0 / own->value.value());
  difference.add_uncertainty(twin->value, -1.0 / twin->value.value());
  Finding& finding = scene.findings.add(twin_comparison, Outcome::undecided, compared);
  const double beyond = std::abs(difference.value()) - 2.0 * difference.standard_uncertainty();
  if (beyond > std::log1p(twins_apart)) finding.text = far_apart;
  finding.measured = ohms(own->value.value());
  tell(finding, "measured", *finding.measured);
  tell(finding, "twin", ohms(twin->value.value()));
  tell(finding, "difference_percent", percent(difference.value()));
  tell(finding, "uncertainty_percent", 100.0 * difference.standard_uncertainty());
}

}  // namespace ohmwright::defrost_sensor
