#include <algorithm>
#include <utility>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

namespace {

bool is_continuous(const Finding& finding) {
  return finding.judged.has_value() && finding.meaning == ProbabilityMeaning::within_limits;
}

std::optional<double> joint_over_essential(const Descriptor& descriptor, const Evidence& evidence,
                                           const std::vector<Finding>& findings) {
  std::vector<LimitedEstimate> judged;
  for (const Finding& finding : findings)
    if (is_continuous(finding) && descriptor.rules[finding.rule].essential)
      judged.push_back({*finding.judged, finding.judged_lower, finding.judged_upper});
  if (judged.empty()) return std::nullopt;
  if (judged.size() == 1)  // the usual case, and the same number as the rule itself gave
    return probability_between(judged[0].estimate, evidence.sources(), judged[0].lower, judged[0].upper);
  return joint_probability(judged, evidence.sources()).probability;
}

/// False for a kind without any essential rule: nothing would have been shown.
bool every_essential_rule_passed(const Descriptor& descriptor, const std::vector<Finding>& findings) {
  bool any_essential = false;
  for (std::size_t rule = 0; rule < descriptor.rules.size(); ++rule) {
    if (!descriptor.rules[rule].essential) continue;
    any_essential = true;
    bool passed = false;
    for (const Finding& finding : findings) {
      if (finding.rule != rule) continue;
      if (finding.outcome != Outcome::within_limits) return false;
      passed = true;
    }
    if (!passed) return false;
  }
  return any_essential;
}

Outcome outcome_of(const Descriptor& descriptor, const JudgeSettings& settings, const std::vector<Finding>& findings,
                   std::optional<double> probability) {
  const bool condemned = std::any_of(findings.begin(), findings.end(),
                                     [](const Finding& finding) { return finding.outcome == Outcome::out_of_limits; });
  if (condemned || (probability && decide(*probability, settings.confidence) == Outcome::out_of_limits))
    return Outcome::out_of_limits;
  const bool sure = !probability || decide(*probability, settings.confidence) == Outcome::within_limits;
  return sure && every_essential_rule_passed(descriptor, findings) ? Outcome::within_limits : Outcome::undecided;
}

/// The finding whose doubt matters: the least probable of the continuous ones.
const Finding* deciding_finding(const std::vector<Finding>& findings) {
  const Finding* deciding = nullptr;
  for (const Finding& finding : findings)
    if (is_continuous(finding) && (deciding == nullptr || finding.probability < deciding->probability))
      deciding = &finding;
  return deciding;
}

}  // namespace

Verdict conclude(const Descriptor& descriptor, const Evidence& evidence, const JudgeSettings& settings,
                 Findings findings) {
  Verdict verdict;
  verdict.findings = std::move(findings.findings());
  verdict.advice = std::move(findings.advice());
  verdict.probability_within = joint_over_essential(descriptor, evidence, verdict.findings);
  verdict.outcome = outcome_of(descriptor, settings, verdict.findings, verdict.probability_within);
  if (const Finding* deciding = deciding_finding(verdict.findings)) verdict.budget = budget_of(*deciding->judged);
  return verdict;
}

Verdict judge(const Part& part, const Descriptor& descriptor, const Evidence& evidence, const JudgeSettings& settings) {
  Findings findings;
  part.judge(evidence, settings, findings);
  return conclude(descriptor, evidence, settings, std::move(findings));
}

}  // namespace ohmwright
