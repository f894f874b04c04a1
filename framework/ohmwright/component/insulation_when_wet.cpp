#include <algorithm>

#include <ohmwright/component/insulation_when_wet.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright {

namespace {

/// The volts that are asked of a test of what lies at the mains (EN 50699, EN 50678; from memory) [V].
constexpr double volt_of_a_wet_test = 500.0;

/// What was read wet.
struct WetReadings {
  const PreparedReading* leak = nullptr;  ///< the last that leaks, where no wet test after it was right
  const PreparedReading* weak = nullptr;  ///< the last right test after that leak, with too few volts to lift it
};

bool shows_the_least(const PreparedReading& reading, const InsulationRule& asked) {
  if (shows_more_than_range(reading)) return reading.range_full_scale >= asked.least;
  return reading.shown == Shown::value && reading.displayed >= asked.least;
}

/// A leak that a tester found with fewer volts, for where a surge arrester would conduct, is lifted by as many.
bool has_volts_to_lift(const PreparedReading& test, const PreparedReading& leak, const InsulationRule& asked) {
  constexpr double rounding = 1e-9;
  double needed = volt_of_a_wet_test;
  if (by_insulation_tester(leak, asked)) needed = std::min(needed, leak.condition(asked.test_voltage)->value());
  return test.condition(asked.test_voltage)->value() >= needed * (1.0 - rounding);
}

WetReadings wet_readings(const Evidence& evidence, const InsulationRule& asked) {
  WetReadings wet;
  for (const PreparedReading& reading : evidence.readings()) {
    if (reading.measurand != asked.measurand || is_live(reading) || is_in_circuit(reading)) continue;
    if (reading.moisture != Moisture::wet) continue;
    if (reading.shown == Shown::value && reading.displayed < asked.least)
      wet = {&reading, nullptr};
    else if (wet.leak != nullptr && by_insulation_tester(reading, asked) && shows_the_least(reading, asked))
      wet = has_volts_to_lift(reading, *wet.leak, asked) ? WetReadings{} : WetReadings{wet.leak, &reading};
  }
  return wet;
}

}  // namespace

void hold_back_for_a_wet_leak(const Evidence& evidence, const InsulationRule& asked, std::uint16_t text,
                              Findings& findings) {
  const PreparedReading* wet = wet_readings(evidence, asked).leak;
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

AdviceDescriptor say_if_it_was_wet_advice() {
  return {"say-if-it-was-wet",
          OHMWRIGHT_TEXT("Was it wet, from frost, thaw water or cleaning, when it showed {leak}? Then say --wet beside "
                         "that reading, and --dry beside the test once it was dried. A leak of which neither was said "
                         "stands.")};
}

AdviceDescriptor wet_with_more_volts_advice(std::string_view procedure) {
  return {"wet-with-more-volts",
          OHMWRIGHT_TEXT("Wet it was tested with {volts} only: wet it and test it once more with 500 V (insulation=… "
                         "--wet --test 500V). With fewer volts its leak stands."),
          procedure};
}

void advise_if_it_was_wet(const Evidence& evidence, const InsulationRule& asked, std::uint16_t advice,
                          Findings& findings) {
  if (!findings.has_text(asked.rule, InsulationText::leaks)) return;
  const PreparedReading* leak = decisive_insulation_reading(evidence, asked);
  if (leak == nullptr || leak->moisture != Moisture::unstated) return;
  tell(findings.advise(advice), "leak", ohms(leak->displayed));
}

void advise_on_weak_wet_test(const Evidence& evidence, const InsulationRule& asked, std::uint16_t advice,
                             Findings& findings) {
  const PreparedReading* weak = wet_readings(evidence, asked).weak;
  if (weak == nullptr) return;
  tell(findings.advise(advice), "volts", AnyQuantity(Dimension::voltage, weak->condition(asked.test_voltage)->value()));
}

}  // namespace ohmwright
