#include <cmath>

#include <ohmwright/component/measured.hpp>
#include <ohmwright/component/reading_questions.hpp>

namespace ohmwright {

Measured measure(const Estimate& value, double lower, double upper, Dimension dimension, const Evidence& evidence,
                 const JudgeSettings& settings) {
  const Conformance p = conformance_of(value, evidence.sources(), lower, upper);
  return {value, lower, upper, dimension, p, decide(p, settings.confidence)};
}

Finding& add_measured(Findings& findings, std::uint16_t rule, TextIndex text, const Measured& measured, bool settled) {
  Finding& finding = findings.add(rule, settled ? measured.outcome : Outcome::undecided, text);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = measured.p.within;
  finding.measured = AnyQuantity(measured.dimension, measured.value.value());
  finding.measured_uncertainty = measured.value.standard_uncertainty();
  if (std::isfinite(measured.lower)) finding.limits.lower = AnyQuantity(measured.dimension, measured.lower);
  if (std::isfinite(measured.upper)) finding.limits.upper = AnyQuantity(measured.dimension, measured.upper);
  if (settled) {
    finding.judged = measured.value;
    finding.judged_lower = measured.lower;
    finding.judged_upper = measured.upper;
  }
  tell(finding, "measured", *finding.measured);
  if (finding.limits.lower) tell(finding, "lower", *finding.limits.lower);
  if (finding.limits.upper) tell(finding, "upper", *finding.limits.upper);
  return finding;
}

}  // namespace ohmwright
