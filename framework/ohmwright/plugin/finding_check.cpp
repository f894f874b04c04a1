#include <algorithm>
#include <cmath>
#include <variant>

#include <ohmwright/plugin/finding_check.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

namespace {

// What is wrong, in words that stand after "its rule …"; null where nothing is.
using Wrong = const char*;

constexpr Wrong no_number = "gave something that is not a number";
constexpr Wrong endless = "gave a value without end";
constexpr Wrong no_name = "gave an argument without a name";
constexpr Wrong contradiction = "gave an outcome that its own numbers contradict";

/// How far a probability may be from that of the estimate beside it: the joint probability's own error is no larger.
constexpr double probability_tolerance = 1e-6;

bool declares(const RuleDescriptor& rule, Outcome outcome) {
  return outcome == Outcome::silent || (rule.outcomes & outcome_bit(outcome)) != 0;
}

bool is_decided(Outcome outcome) { return outcome == Outcome::within_limits || outcome == Outcome::out_of_limits; }

bool is_probability(double p) { return p >= 0.0 && p <= 1.0; }  // false for what is not a number

bool is_nan(const std::optional<AnyQuantity>& quantity) { return quantity && std::isnan(quantity->value_in_si()); }

/// The number that a sentence would print; 0 for words.
double number_in(const FindingArgument& argument) {
  if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) return quantity->value_in_si();
  const auto* number = std::get_if<double>(&argument.value);
  return number == nullptr ? 0.0 : *number;
}

Wrong wrong_with(const FindingArguments& arguments) {
  for (const FindingArgument& argument : arguments) {
    if (argument.name.empty()) return no_name;
    const double number = number_in(argument);
    if (std::isnan(number)) return no_number;
    if (std::isinf(number)) return endless;
  }
  return nullptr;
}

Wrong wrong_with_figures(const Finding& finding) {
  if (is_nan(finding.measured) || is_nan(finding.limits.lower) || is_nan(finding.limits.upper)) return no_number;
  if (finding.measured && std::isinf(finding.measured->value_in_si())) return endless;
  if (finding.measured_uncertainty && !(*finding.measured_uncertainty >= 0.0))
    return std::isnan(*finding.measured_uncertainty) ? no_number : "gave an uncertainty below zero";
  if (finding.meaning != ProbabilityMeaning::none && !is_probability(finding.probability))
    return std::isnan(finding.probability) ? no_number : "gave a probability outside 0 to 1";
  return wrong_with(finding.arguments);
}

/// An estimate must be whole before a probability is taken from it.
Wrong wrong_with_estimate(const Finding& finding, std::size_t source_count) {
  if (!finding.judged) return nullptr;
  const Estimate& judged = *finding.judged;
  if (std::isnan(judged.value()) || std::isnan(judged.variance())) return no_number;
  if (std::isnan(finding.judged_lower) || std::isnan(finding.judged_upper)) return no_number;
  if (!std::isfinite(judged.value()) || !std::isfinite(judged.variance())) return "gave an estimate that is not finite";
  if (finding.judged_lower > finding.judged_upper) return "gave a lower limit above the upper one";
  const auto terms = judged.terms();
  const bool known = std::all_of(terms.begin(), terms.end(), [&](Term term) { return term.source < source_count; });
  return known ? nullptr : "gave an estimate with an error source that is not there";
}

Wrong wrong_with_judged_outcome(const Finding& finding, const Evidence& evidence, double confidence,
                                Conformance& conformance) {
  conformance = conformance_of(*finding.judged, evidence.sources(), finding.judged_lower, finding.judged_upper);
  if (!(std::abs(conformance.within - finding.probability) <= probability_tolerance))
    return "gave a probability that is not that of its estimate";
  return is_decided(finding.outcome) && finding.outcome != decide(conformance, confidence) ? contradiction : nullptr;
}

/// Without an estimate there is but the probability itself to go by.
Wrong wrong_with_bare_outcome(const Finding& finding, bool essential, double confidence) {
  if (finding.outcome == Outcome::within_limits) {
    if (finding.probability < confidence) return contradiction;
    if (essential) return "is essential and passes without the estimate that it judged";
  }
  const bool condemns = finding.outcome == Outcome::out_of_limits;
  return condemns && finding.probability > 1.0 - confidence ? contradiction : nullptr;
}

Wrong wrong_with_outcome(const Finding& finding, const RuleDescriptor& rule, const Evidence& evidence,
                         double confidence, Conformance& conformance) {
  switch (finding.meaning) {
    case ProbabilityMeaning::none:
      return nullptr;
    case ProbabilityMeaning::within_limits:
      return finding.judged ? wrong_with_judged_outcome(finding, evidence, confidence, conformance)
                            : wrong_with_bare_outcome(finding, rule.essential, confidence);
    case ProbabilityMeaning::observed_if_within:
      if (finding.outcome == Outcome::within_limits) return "passes by a probability that can only condemn";
      return finding.outcome == Outcome::out_of_limits &&
                     decide_observed(finding.probability, confidence) != Outcome::out_of_limits
                 ? contradiction
                 : nullptr;
  }
  return "gave a probability of no known meaning";
}

/// Nearly all findings of most parts: a rule that had nothing to go on, and gave no number that could be wrong.
bool is_bare_silence(const Finding& finding) {
  return finding.outcome == Outcome::silent && finding.arguments.empty() && !finding.measured &&
         !finding.measured_uncertainty && !finding.limits.lower && !finding.limits.upper && !finding.judged &&
         finding.meaning == ProbabilityMeaning::none;
}

/// `conformance` becomes that of the estimate, where it is a whole one that was judged.
Wrong wrong_with(const Finding& finding, const RuleDescriptor& rule, const Evidence& evidence, double confidence,
                 Conformance& conformance) {
  if (finding.text >= rule.texts.size()) return "gave a text that it does not have";
  if (!declares(rule, finding.outcome)) return "gave an outcome that it does not declare";
  if (const Wrong wrong = wrong_with_figures(finding)) return wrong;
  if (const Wrong wrong = wrong_with_estimate(finding, evidence.sources().size())) return wrong;
  return wrong_with_outcome(finding, rule, evidence, confidence, conformance);
}

Wrong wrong_with(const Advice& advice) {
  if (advice.probability_decided && !is_probability(*advice.probability_decided))
    return std::isnan(*advice.probability_decided) ? no_number : "gave a probability outside 0 to 1";
  return wrong_with(advice.arguments);
}

bool is_joint(const Finding& finding, const RuleDescriptor& rule) {
  return rule.essential && finding.judged && finding.meaning == ProbabilityMeaning::within_limits;
}

std::string its(const char* what, std::string_view id, Wrong wrong) {
  return std::string("its ") + what + " " + ohmwright::quoted(id) + " " + wrong;
}

}  // namespace

std::optional<std::string> misuse_of_findings(const Findings& findings, const Descriptor& descriptor,
                                              const Evidence& evidence, const JudgeSettings& settings,
                                              LoneEssential* lone) {
  if (findings.findings().empty()) return "none of its rules spoke";
  std::size_t joint = 0;
  Conformance of_joint;
  for (const Finding& finding : findings.findings()) {
    if (finding.rule >= descriptor.rules.size()) return "it gave a finding of a rule that its kind does not have";
    const RuleDescriptor& rule = descriptor.rules[finding.rule];
    if (is_bare_silence(finding) && finding.text < rule.texts.size()) continue;
    Conformance conformance;
    if (const Wrong wrong = wrong_with(finding, rule, evidence, settings.confidence, conformance))
      return its("rule", rule.id, wrong);
    if (!is_joint(finding, rule)) continue;
    ++joint;
    of_joint = conformance;
  }
  if (joint > max_joint_estimates) {
    return "its essential rules gave " + std::to_string(joint) + " estimates; one verdict takes at most " +
           std::to_string(max_joint_estimates);
  }
  if (lone != nullptr && joint == 1) lone->conformance = of_joint;
  for (const Advice& advice : findings.advice()) {
    if (advice.text >= descriptor.advice.size()) return "it gave an advice that its kind does not have";
    if (const Wrong wrong = wrong_with(advice)) return its("advice", descriptor.advice[advice.text].id, wrong);
  }
  return std::nullopt;
}

}  // namespace ohmwright
