#include "rules/unit_slip.hpp"

#include <cmath>

namespace ohmwright::bimetal_thermostat {

namespace {

bool is_whole(double degrees) { return std::abs(degrees - std::round(degrees)) < 0.01; }

/// What a thermometer shows in a room is believed: there a welded contact is read as a rule (common practice, no
/// source).
bool is_of_a_room(double celsius) { return celsius >= 18.0 && celsius <= 30.0; }

}  // namespace

std::optional<UnitSlip> unit_slip(const Scene& scene) {
  std::optional<UnitSlip> slip;
  for (const Finding& finding : scene.findings.findings()) {
    const bool condemns =
        finding.meaning == ProbabilityMeaning::observed_if_within && scene.sure(1.0 - finding.probability);
    if (finding.rule != state_at_temperature || !condemns || !finding.measured) continue;
    const double celsius = Temperature::from_kelvin(finding.measured->value_in_si()).celsius();
    const double fahrenheit = celsius * 1.8 + 32.0;
    const bool closed = finding.limits.upper.has_value();
    if (closed && !is_of_a_room(celsius) && (celsius - 32.0) / 1.8 <= scene.ratings->opening.lowest().celsius())
      slip = UnitSlip{celsius, true};
    else if (!closed && is_whole(fahrenheit) && !is_whole(celsius) &&
             fahrenheit >= scene.ratings->closing.highest().celsius())
      slip = UnitSlip{fahrenheit, false};
  }
  return slip;
}

}  // namespace ohmwright::bimetal_thermostat
