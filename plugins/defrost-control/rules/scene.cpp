#include "rules/scene.hpp"

#include <cmath>

#include "rules/contact_drop.hpp"

namespace ohmwright::defrost_control {

Scene::Scene(const ControlRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out)
    : ratings(known),
      evidence(given),
      settings(how),
      findings(out),
      grid(given, most_ohms_of_contact(), how.confidence),
      seen_output(output_seen(given, how.confidence)) {
  if (drops_little(*this)) grid.clear_under_load(of_defrost);
}

const PreparedReading* last_dead(const Evidence& evidence, MeasurandIndex measurand) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : evidence.readings())
    if (reading.measurand == measurand && reading.shown == Shown::value && !is_live(reading)) last = &reading;
  return last;
}

void put_judged(Finding& finding, const Estimate& estimate, double lower, double upper, Dimension dimension,
                const Conformance& p) {
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.judged = estimate;
  finding.judged_lower = lower;
  finding.judged_upper = upper;
  finding.measured = AnyQuantity(dimension, estimate.value());
  finding.measured_uncertainty = estimate.standard_uncertainty();
  if (std::isfinite(lower)) finding.limits.lower = AnyQuantity(dimension, lower);
  if (std::isfinite(upper)) finding.limits.upper = AnyQuantity(dimension, upper);
}

}  // namespace ohmwright::defrost_control
