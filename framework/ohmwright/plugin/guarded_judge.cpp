#include <cmath>
#include <utility>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

NotJudged failed(const std::string& why) { return {"not judged: the plugin failed: " + why}; }

bool declares(const RuleDescriptor& rule, Outcome outcome) {
  return outcome == Outcome::silent || (rule.outcomes & outcome_bit(outcome)) != 0;
}

bool is_probability(double p) { return p >= 0.0 && p <= 1.0; }  // false for what is not a number

bool has_usable_numbers(const Finding& finding) {
  if (finding.meaning != ProbabilityMeaning::none && !is_probability(finding.probability)) return false;
  if (finding.limits.lower && std::isnan(finding.limits.lower->value_in_si())) return false;
  if (finding.limits.upper && std::isnan(finding.limits.upper->value_in_si())) return false;
  if (finding.measured && std::isnan(finding.measured->value_in_si())) return false;
  return !finding.judged ||
         (std::isfinite(finding.judged->value()) && std::isfinite(finding.judged->standard_uncertainty()) &&
          !std::isnan(finding.judged_lower) && !std::isnan(finding.judged_upper));
}

/// Why the findings cannot be used, or nothing.
std::optional<std::string> misuse(const Findings& findings, const Descriptor& descriptor) {
  for (const Finding& finding : findings.findings()) {
    if (finding.rule >= descriptor.rules.size()) return "it gave a finding of a rule that its kind does not have";
    const RuleDescriptor& rule = descriptor.rules[finding.rule];
    const auto of_rule = [&](const char* what) { return "its rule " + ohmwright::quoted(rule.id) + " " + what; };
    if (finding.text >= rule.texts.size()) return of_rule("gave a text that it does not have");
    if (!declares(rule, finding.outcome)) return of_rule("gave an outcome that it does not declare");
    if (!has_usable_numbers(finding)) return of_rule("gave something that is not a number");
  }
  for (const Advice& advice : findings.advice())
    if (advice.text >= descriptor.advice.size()) return "it gave an advice that its kind does not have";
  if (findings.findings().empty()) return "none of its rules spoke";
  return std::nullopt;
}

}  // namespace

std::optional<NotJudged> run_rules(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                   const JudgeSettings& settings, Findings& findings) {
  std::optional<std::string> why = guarded([&] { part.judge(evidence, settings, findings); });
  if (!why) why = misuse(findings, descriptor);
  if (!why) return std::nullopt;
  findings.clear();  // nothing half-said is left to be taken for a verdict
  return failed(*why);
}

std::variant<Verdict, NotJudged> judge_guarded(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                               const JudgeSettings& settings) {
  Findings findings;
  if (std::optional<NotJudged> failure = run_rules(part, descriptor, evidence, settings, findings))
    return *std::move(failure);
  // What a plugin found can still be too much to conclude from: that costs its own result and nothing else.
  std::optional<Verdict> verdict;
  const std::optional<std::string> why =
      guarded([&] { verdict = conclude(descriptor, evidence, settings, std::move(findings)); });
  if (why) return failed(*why);
  return *std::move(verdict);
}

}  // namespace ohmwright
