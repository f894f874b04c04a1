#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

#include <ohmwright/component/in_circuit.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

namespace {

/// How far swapped probes may read apart and still agree, beside their own errors: they are pressed on anew (common
/// practice, no source).
constexpr double swap_agreement = 0.02;
/// Volts that would move an ohmmeter's reading: its own test voltage is a few tenths of a volt.
constexpr double near_zero_volts = 0.01;

bool points_are_dead(const InCircuitRule& rule, const Evidence& evidence, const PreparedReading& reading) {
  if (reading.supply == Supply::proved_dead) return true;
  const auto readings = evidence.readings();
  return rule.volts != not_found && std::any_of(readings.begin(), readings.end(), [&](const PreparedReading& other) {
           return other.measurand == rule.volts && !is_live(other) && other.shown == Shown::value &&
                  std::abs(other.displayed) <= near_zero_volts;
         });
}

bool was_swapped(const InCircuitRule& rule, const Evidence& evidence) {
  const auto readings = evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [&](const PreparedReading& other) {
    return other.measurand == rule.swapped && is_in_circuit(other) && !is_live(other);
  });
}

TextIndex text_when_high(const InCircuitRule& rule, const Evidence& evidence, const PreparedReading& reading,
                         ReadAlone read_alone) {
  const bool swapped_agree =
      rule.swapped == not_found || swapped_probes_agree(evidence, reading, rule.swapped, swap_agreement);
  if (!swapped_agree && was_swapped(rule, evidence)) return InCircuitText::swapped_differ;
  if (!swapped_agree || !points_are_dead(rule, evidence, reading)) return InCircuitText::high_not_proved;
  switch (read_alone) {
    case ReadAlone::no:
      return InCircuitText::everything_between_probes;
    case ReadAlone::unstated:
      return InCircuitText::right_where_unstated;
    case ReadAlone::right:
      return InCircuitText::right_alone;
    case ReadAlone::wrong:
      return InCircuitText::beside_others;
  }
  return InCircuitText::high_not_proved;
}

TextIndex text_for(const InCircuitRule& rule, const Evidence& evidence, const JudgeSettings& settings,
                   const PreparedReading& reading, const std::optional<SeenInCircuit>& seen) {
  if (!seen) return InCircuitText::not_comparable;
  const double least = 1.0 - settings.confidence;
  if (seen->reads_so_high <= least) return text_when_high(rule, evidence, reading, seen->read_alone);
  if (seen->read_alone != ReadAlone::no) return InCircuitText::beside_others;
  return seen->reads_so_low <= least ? InCircuitText::low_means_nothing : InCircuitText::clears_nothing;
}

void judge_one(const InCircuitRule& rule, const Evidence& evidence, const JudgeSettings& settings,
               const PreparedReading& reading, Findings& findings) {
  const std::optional<SeenInCircuit> seen = rule.see(reading);
  const TextIndex text = text_for(rule, evidence, settings, reading, seen);
  const bool condemns = text == InCircuitText::everything_between_probes;
  Finding& finding = findings.add(rule.rule, condemns ? Outcome::out_of_limits : Outcome::undecided, text);
  // Right in one reading and open in the other: nothing passes on that.
  finding.holds_back = text == InCircuitText::right_where_unstated;
  if (reading.shown == Shown::value) finding.measured = AnyQuantity(Dimension::resistance, reading.value.value());
  if (seen) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = std::min(seen->reads_so_high, seen->reads_so_low);
    if (seen->lower) {
      finding.limits.lower = AnyQuantity(Dimension::resistance, *seen->lower);
      ohmwright::tell(finding, "lower", *finding.limits.lower);
    }
    if (seen->upper) {
      finding.limits.upper = AnyQuantity(Dimension::resistance, *seen->upper);
      ohmwright::tell(finding, "upper", *finding.limits.upper);
    }
  }
  rule.tell(reading, finding);
}

template <class Predicate>
bool any_undecided(const Findings& findings, std::uint16_t rule, Predicate holds) {
  const auto& all = findings.findings();
  return std::any_of(all.begin(), all.end(), [&](const Finding& finding) {
    return finding.rule == rule && finding.outcome == Outcome::undecided && holds(finding.text);
  });
}

bool is_among(std::initializer_list<TextIndex> texts, TextIndex text) {
  return std::find(texts.begin(), texts.end(), text) != texts.end();
}

}  // namespace

SeenInCircuit seen_between(const PreparedReading& reading, const Estimate* lower, const Estimate& upper,
                           std::span<const ErrorSource> sources) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  SeenInCircuit seen;
  switch (reading.shown) {
    case Shown::contact_open:
      seen.reads_so_high = 0.0;
      break;
    case Shown::over_range:
      seen.reads_so_high = probability_between(upper, sources, reading.range_full_scale, infinity);
      break;
    case Shown::contact_closed:
      break;
    case Shown::value: {
      Estimate excess = reading.value;
      excess.add_scaled(upper, -1.0);
      seen.reads_so_high = probability_between(excess, sources, -infinity, 0.0);
      if (lower == nullptr) break;
      Estimate over_lower = reading.value;
      over_lower.add_scaled(*lower, -1.0);
      seen.reads_so_low = probability_between(over_lower, sources, 0.0, infinity);
      break;
    }
  }
  return seen;
}

void judge_in_circuit(const InCircuitRule& rule, const Evidence& evidence, const JudgeSettings& settings,
                      Findings& findings) {
  bool judged = false;
  TextIndex silence = InCircuitText::no_in_circuit;
  for (const PreparedReading& reading : evidence.readings()) {
    if (!rule.is_of_it(reading) || !is_in_circuit(reading)) continue;
    if (is_live(reading)) {
      silence = InCircuitText::only_live;
      continue;
    }
    judge_one(rule, evidence, settings, reading, findings);
    judged = true;
  }
  if (!judged) findings.add(rule.rule, Outcome::silent, silence);
}

bool asks_to_prove_dead_and_swap(const Findings& findings, std::uint16_t rule, std::initializer_list<TextIndex> own) {
  return any_undecided(findings, rule, [own](TextIndex text) {
    return text == InCircuitText::high_not_proved || text == InCircuitText::swapped_differ || is_among(own, text);
  });
}

bool asks_to_read_alone(const Findings& findings, std::uint16_t rule, std::initializer_list<TextIndex> own) {
  return any_undecided(findings, rule, [own](TextIndex text) {
    return text != InCircuitText::right_alone && text != InCircuitText::beside_others && !is_among(own, text);
  });
}

}  // namespace ohmwright
