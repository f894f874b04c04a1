#include <algorithm>
#include <cmath>
#include <limits>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

namespace {

/// A test with fewer volts than this proves no insulation against the mains [V].
constexpr double least_test_volt = 250.0;
/// The volts that are asked of a test of what lies at the mains [V].
constexpr double asked_test_volt = 500.0;
/// The 500 V that are asked, with room for what a tester gives beyond its range (common practice, no source) [V].
constexpr double most_test_volt = 625.0;
/// Damp and dirt leave more than this between a part and its frame; less is metal on metal, or burnt carbon (common
/// practice, no source) [ohm].
constexpr double least_of_damp_ohms = 10e3;

const Estimate* volts_of_test(const PreparedReading& reading, const InsulationRule& rule) {
  return reading.condition(rule.test_voltage);
}

bool has_fewer_volts_than_asked(const PreparedReading& reading, const InsulationRule& rule) {
  constexpr double rounding = 1e-9;
  const Estimate* volts = volts_of_test(reading, rule);
  return volts != nullptr && volts->value() < asked_test_volt * (1.0 - rounding);
}

bool is_to_frame(const PreparedReading& reading, const InsulationRule& rule) {
  return reading.measurand == rule.measurand && !is_live(reading);
}

/// The least that one of its repeats can have been: none lies farther from their mean than s*(n - 1)/sqrt(n)
/// (a bound on the largest of n deviations, from memory; with two it is the lower one itself). The mean of two
/// terminals hides the one that leaks.
double least_of_repeats(const Evidence& evidence, const PreparedReading& reading) {
  for (const Term& term : reading.value.terms()) {
    const ErrorSource& source = evidence.sources()[term.source];
    // The term is s/sqrt(n), with n - 1 degrees of freedom.
    if (source.shape == Shape::student_t)
      return reading.displayed - std::abs(term.standard_uncertainty) * source.degrees_of_freedom;
  }
  return reading.displayed;
}

/// Whether that least, unlike the mean, is too low.
bool mean_may_hide_a_leak(const Evidence& evidence, const PreparedReading& reading, double least) {
  constexpr double rounding = 1e-9;
  return reading.shown == Shown::value && reading.displayed >= least &&
         least_of_repeats(evidence, reading) < least * (1.0 - rounding);
}

/// What is low counts before what may be, and that before the rest.
int rank_of(const Evidence& evidence, const PreparedReading& reading, double least) {
  if (reading.shown == Shown::contact_closed || (reading.shown == Shown::value && reading.displayed < least)) return 0;
  return mean_may_hide_a_leak(evidence, reading, least) ? 1 : 2;
}

/// Whether `a` says more than `b`: a low one before a high one, the lower of two low ones, a tester's before an
/// ohmmeter's.
bool says_more(const PreparedReading& a, const PreparedReading& b, const Evidence& evidence,
               const InsulationRule& rule) {
  const int rank = rank_of(evidence, a, rule.least);
  if (rank != rank_of(evidence, b, rule.least)) return rank < rank_of(evidence, b, rule.least);
  if (rank == 0) return a.displayed < b.displayed;
  const bool a_by_tester = by_insulation_tester(a, rule);
  if (a_by_tester != by_insulation_tester(b, rule)) return a_by_tester;
  return a.shown == Shown::value && (b.shown != Shown::value || a.displayed < b.displayed);
}

void judge_past_range(const PreparedReading& reading, const InsulationRule& rule, Findings& findings) {
  const bool by_tester = by_insulation_tester(reading, rule);
  const bool proved = by_tester && reading.range_full_scale >= rule.least;
  const Estimate* volts = volts_of_test(reading, rule);
  TextIndex text = InsulationText::ohmmeter_past_range;
  if (proved)
    text = has_fewer_volts_than_asked(reading, rule) ? InsulationText::insulates_past_range_at_fewer_volts
                                                     : InsulationText::insulates_past_range;
  if (!proved && reading.range_full_scale > 0.0 && reading.range_full_scale < rule.least)
    text = by_tester ? InsulationText::tester_more_than : InsulationText::ohmmeter_more_than;
  if (volts != nullptr && !by_tester) text = InsulationText::few_volts_past_range;
  Finding& finding = findings.add(rule.rule, proved ? Outcome::within_limits : Outcome::undecided, text);
  finding.holds_back = !proved;
  if (volts != nullptr) tell(finding, "volts", AnyQuantity(Dimension::voltage, volts->value()));
  finding.limits.lower = AnyQuantity(Dimension::resistance, rule.least);
  tell(finding, "least", *finding.limits.lower);
  tell(finding, "shown", AnyQuantity(Dimension::resistance, reading.range_full_scale));
}

bool lead_off_was_said(const Evidence& evidence) {
  const auto readings = evidence.readings();
  return std::any_of(readings.begin(), readings.end(), is_lead_off);
}

/// Of a reading that is too low for good insulation.
TextIndex text_of_leak(const PreparedReading& reading, const InsulationRule& rule, const Evidence& evidence) {
  if (reading.moisture == Moisture::wet) return InsulationText::leaks_while_wet;
  if (is_in_circuit(reading)) return InsulationText::leaks_in_circuit;
  if (!is_lead_off(reading))
    return lead_off_was_said(evidence) ? InsulationText::leaks_lead_off_of_another
                                       : InsulationText::leaks_connection_unstated;
  const Estimate* volts = volts_of_test(reading, rule);
  if (volts != nullptr && volts->value() > most_test_volt) return InsulationText::leaks_at_more_volts;
  return reading.displayed < least_of_damp_ohms ? InsulationText::touches_frame : InsulationText::leaks;
}

TextIndex text_for(Outcome outcome, const PreparedReading& reading, const InsulationRule& rule,
                   const Evidence& evidence) {
  if (outcome == Outcome::out_of_limits) return text_of_leak(reading, rule, evidence);
  if (outcome != Outcome::within_limits) return InsulationText::not_told_apart;
  if (by_insulation_tester(reading, rule))
    return has_fewer_volts_than_asked(reading, rule) ? InsulationText::insulates_at_fewer_volts
                                                     : InsulationText::insulates;
  return volts_of_test(reading, rule) != nullptr ? InsulationText::few_volts : InsulationText::ohmmeter_is_no_tester;
}

/// Whether that text is the last word, so that the value counts in the verdict's probability.
bool settles(TextIndex text) {
  return text == InsulationText::insulates || text == InsulationText::insulates_at_fewer_volts ||
         text == InsulationText::leaks || text == InsulationText::touches_frame ||
         text == InsulationText::not_told_apart;
}

}  // namespace

EarthClass earth_class_named(std::string_view name) {
  if (name == "I") return EarthClass::one;
  if (name == "II") return EarthClass::two;
  return name == "III" ? EarthClass::three : EarthClass::unstated;
}

Resistance least_insulation(EarthClass earth_class, std::optional<Power> heating) {
  constexpr double large_heating_watt = 3500.0;
  if (earth_class == EarthClass::two) return Resistance::from_value(2e6);
  if (earth_class == EarthClass::three) return Resistance::from_value(0.25e6);
  const bool large = earth_class == EarthClass::one && heating && heating->value() > large_heating_watt;
  return Resistance::from_value(large ? 0.3e6 : 1e6);
}

bool by_insulation_tester(const PreparedReading& reading, const InsulationRule& rule) {
  const Estimate* volts = reading.condition(rule.test_voltage);
  return volts != nullptr && volts->value() >= least_test_volt;
}

Estimate insulation_shown(const PreparedReading& reading) {
  Estimate shown = reading.value;
  shown.shift(reading.displayed - reading.value.value());
  return shown;
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
    if (decisive == nullptr || says_more(reading, *decisive, evidence, rule)) decisive = &reading;
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
  const Estimate shown = insulation_shown(reading);
  const Conformance p = conformance_of(shown, evidence.sources(), rule.least, infinity);
  Outcome outcome = decide(p, settings.confidence);
  TextIndex text = text_for(outcome, reading, rule, evidence);
  if (outcome != Outcome::out_of_limits && mean_may_hide_a_leak(evidence, reading, rule.least))
    text = InsulationText::repeats_differ;
  if (!settles(text)) outcome = Outcome::undecided;
  Finding& finding = findings.add(rule.rule, outcome, text);
  finding.holds_back = outcome == Outcome::undecided;
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.measured = AnyQuantity(Dimension::resistance, shown.value());
  finding.measured_uncertainty = shown.standard_uncertainty();
  finding.limits.lower = AnyQuantity(Dimension::resistance, rule.least);
  if (settles(text)) {
    finding.judged = shown;
    finding.judged_lower = rule.least;
    finding.judged_upper = infinity;
  }
  tell(finding, "measured", *finding.measured);
  tell(finding, "least", *finding.limits.lower);
  if (const Estimate* volts = volts_of_test(reading, rule))
    tell(finding, "volts", AnyQuantity(Dimension::voltage, volts->value()));
}

bool touches_frame(const Findings& findings, std::uint16_t rule) {
  const auto& all = findings.findings();
  return std::any_of(all.begin(), all.end(), [rule](const Finding& finding) {
    return finding.rule == rule && finding.text == InsulationText::touches_frame;
  });
}

}  // namespace ohmwright
