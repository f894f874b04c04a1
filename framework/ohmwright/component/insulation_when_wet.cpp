#include <ohmwright/component/insulation_when_wet.hpp>
#include <ohmwright/component/reading_questions.hpp>

namespace ohmwright {

namespace {

/// The last wet reading that leaks, where no wet test after it was right. Null: none.
const PreparedReading* leak_when_wet(const Evidence& evidence, const InsulationRule& asked) {
  const PreparedReading* leak = nullptr;
  for (const PreparedReading& reading : evidence.readings()) {
    if (reading.measurand != asked.measurand || is_live(reading) || is_in_circuit(reading)) continue;
    if (reading.moisture != Moisture::wet) continue;
    if (reading.shown == Shown::value && reading.displayed < asked.least)
      leak = &reading;
    else if (by_insulation_tester(reading, asked))
      leak = nullptr;
  }
  return leak;
}

}  // namespace

void hold_back_for_a_wet_leak(const Evidence& evidence, const InsulationRule& asked, std::uint16_t text,
                              Findings& findings) {
  const PreparedReading* wet = leak_when_wet(evidence, asked);
  if (wet == nullptr || !findings.has(asked.rule, Outcome::within_limits)) return;
  Finding& finding = findings.findings().back();
  finding.outcome = Outcome::undecided;
  finding.text = text;
  finding.holds_back = true;
  finding.meaning = ProbabilityMeaning::none;
  finding.probability = 0.0;
  finding.judged.reset();
  finding.measured = AnyQuantity(Dimension::resistance, wet->displayed);
  finding.measured_uncertainty = wet->value.standard_uncertainty();
  finding.limits.lower = AnyQuantity(Dimension::resistance, asked.least);
  finding.arguments.clear();
  finding.arguments.push_back({"wet", *finding.measured});
  finding.arguments.push_back({"least", *finding.limits.lower});
}

}  // namespace ohmwright
