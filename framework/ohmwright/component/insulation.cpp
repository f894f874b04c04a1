#include <algorithm>
#include <limits>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

namespace {

/// A test with fewer volts than this proves no insulation against the mains [V].
constexpr double least_test_volt = 250.0;

bool is_to_frame(const PreparedReading& reading, const InsulationRule& rule) {
  return reading.measurand == rule.measurand && !is_live(reading);
}

bool is_low(const PreparedReading& reading, double least) {
  return reading.shown == Shown::contact_closed || (reading.shown == Shown::value && reading.value.value() < least);
}

/// Whether `a` says more than `b`: a low one before a high one, the lower of two low ones, a tester's before an
/// ohmmeter's.
bool says_more(const PreparedReading& a, const PreparedReading& b, const InsulationRule& rule) {
  const bool a_is_low = is_low(a, rule.least);
  if (a_is_low != is_low(b, rule.least)) return a_is_low;
  if (a_is_low) return a.value.value() < b.value.value();
  const bool a_by_tester = by_insulation_tester(a, rule);
  if (a_by_tester != by_insulation_tester(b, rule)) return a_by_tester;
  return a.shown == Shown::value && (b.shown != Shown::value || a.value.value() < b.value.value());
}

void judge_past_range(const PreparedReading& reading, const InsulationRule& rule, Findings& findings) {
  const bool proved = by_insulation_tester(reading, rule) && reading.range_full_scale >= rule.least;
  Finding& finding = findings.add(rule.rule, proved ? Outcome::within_limits : Outcome::undecided,
                                  proved ? InsulationText::insulates_past_range : InsulationText::ohmmeter_past_range);
  finding.holds_back = !proved;
  finding.limits.lower = AnyQuantity(Dimension::resistance, rule.least);
  tell(finding, "least", *finding.limits.lower);
}

TextIndex text_for(Outcome outcome, const PreparedReading& reading, const InsulationRule& rule) {
  if (outcome == Outcome::within_limits)
    return by_insulation_tester(reading, rule) ? InsulationText::insulates : InsulationText::ohmmeter_is_no_tester;
  if (outcome != Outcome::out_of_limits) return InsulationText::not_told_apart;
  if (reading.moisture == Moisture::wet) return InsulationText::leaks_while_wet;
  return is_lead_off(reading) ? InsulationText::leaks : InsulationText::leaks_connection_unstated;
}

/// Whether that text is the last word, so that the value counts in the verdict's probability.
bool settles(TextIndex text) {
  return text == InsulationText::insulates || text == InsulationText::leaks || text == InsulationText::not_told_apart;
}

}  // namespace

bool by_insulation_tester(const PreparedReading& reading, const InsulationRule& rule) {
  const Estimate* volts = reading.condition(rule.test_voltage);
  return volts != nullptr && volts->value() >= least_test_volt;
}

const PreparedReading* decisive_insulation_reading(const Evidence& evidence, const InsulationRule& rule) {
  const PreparedReading* last_not_wet = nullptr;
  for (const PreparedReading& reading : evidence.readings())
    if (is_to_frame(reading, rule) && reading.moisture != Moisture::wet) last_not_wet = &reading;
  const PreparedReading* decisive = nullptr;
  bool dry_to_come = last_not_wet != nullptr;
  for (const PreparedReading& reading : evidence.readings()) {
    if (&reading == last_not_wet) dry_to_come = false;
    if (!is_to_frame(reading, rule) || (dry_to_come && reading.moisture == Moisture::wet)) continue;
    if (decisive == nullptr || says_more(reading, *decisive, rule)) decisive = &reading;
  }
  return decisive;
}

bool insulation_was_read_live(const Evidence& evidence, const InsulationRule& rule) {
  const auto readings = evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [&](const PreparedReading& reading) {
    return reading.measurand == rule.measurand && is_live(reading);
  });
}

void judge_insulation_reading(const PreparedReading& reading, const InsulationRule& rule, const Evidence& evidence,
                              const JudgeSettings& settings, Findings& findings) {
  if (shows_more_than_range(reading)) return judge_past_range(reading, rule, findings);
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const Conformance p = conformance_of(reading.value, evidence.sources(), rule.least, infinity);
  Outcome outcome = decide(p, settings.confidence);
  const TextIndex text = text_for(outcome, reading, rule);
  if (!settles(text)) outcome = Outcome::undecided;
  Finding& finding = findings.add(rule.rule, outcome, text);
  finding.holds_back = outcome == Outcome::undecided;
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.measured = AnyQuantity(Dimension::resistance, reading.value.value());
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  finding.limits.lower = AnyQuantity(Dimension::resistance, rule.least);
  if (settles(text)) {
    finding.judged = reading.value;
    finding.judged_lower = rule.least;
    finding.judged_upper = infinity;
  }
  tell(finding, "measured", *finding.measured);
  tell(finding, "least", *finding.limits.lower);
}

}  // namespace ohmwright
