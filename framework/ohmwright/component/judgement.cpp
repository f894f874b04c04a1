#include <algorithm>
#include <limits>
#include <utility>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/component/swapped_probes.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

namespace {

bool is_continuous(const Finding& finding) {
  return finding.judged.has_value() && finding.meaning == ProbabilityMeaning::within_limits;
}

/// Leaves only the limit that the estimate more likely lies beyond.
void open_unlikely_side(LimitedEstimate& judged, std::span<const ErrorSource> sources) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const double not_above = probability_between(judged.estimate, sources, -infinity, judged.upper);
  const double not_below = probability_between(judged.estimate, sources, judged.lower, infinity);
  if (not_above < not_below)
    judged.lower = -infinity;
  else
    judged.upper = infinity;
}

struct Joint {
  Conformance conformance;
  std::optional<Drawing> drawing;
};

/// Over the essential measurands together; empty where no continuous rule spoke.
std::optional<Joint> joint_over_essential(const Descriptor& descriptor, const Evidence& evidence,
                                          const std::vector<Finding>& findings,
                                          const std::optional<Conformance>& of_lone) {
  if (of_lone) return Joint{*of_lone, std::nullopt};
  std::vector<LimitedEstimate> judged;
  for (const Finding& finding : findings)
    if (is_continuous(finding) && descriptor.rules[finding.rule].essential)
      judged.push_back({*finding.judged, finding.judged_lower, finding.judged_upper});
  const auto sources = evidence.sources();
  if (judged.empty()) return std::nullopt;
  if (judged.size() == 1)  // the usual case, and the same number as the rule itself gave
    return Joint{conformance_of(judged[0].estimate, sources, judged[0].lower, judged[0].upper), std::nullopt};
  const JointProbability within = joint_probability(judged, sources);
  Joint joint{{within.probability, within.probability}, std::nullopt};
  if (within.method == JointMethod::monte_carlo)
    joint.drawing = Drawing{within.seed, within.trials, within.standard_error};
  if (within.probability < 0.5) {
    for (LimitedEstimate& one : judged) open_unlikely_side(one, sources);
    joint.conformance.not_beyond = joint_probability(judged, sources).probability;
  }
  return joint;
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
                   const std::optional<Joint>& joint) {
  const bool condemned = std::any_of(findings.begin(), findings.end(),
                                     [](const Finding& finding) { return finding.outcome == Outcome::out_of_limits; });
  if (condemned || (joint && decide(joint->conformance, settings.confidence) == Outcome::out_of_limits))
    return Outcome::out_of_limits;
  const bool held_back = std::any_of(findings.begin(), findings.end(), [](const Finding& finding) {
    return finding.holds_back && finding.outcome == Outcome::undecided;
  });
  if (held_back) return Outcome::undecided;
  const bool sure = !joint || decide(joint->conformance, settings.confidence) == Outcome::within_limits;
  return sure && every_essential_rule_passed(descriptor, findings) ? Outcome::within_limits : Outcome::undecided;
}

/// How much a finding's doubt matters: one that condemns before one that its kind calls essential, before the others.
int weight_of(const Descriptor& descriptor, const Finding& finding) {
  if (finding.outcome == Outcome::out_of_limits) return 2;
  return descriptor.rules[finding.rule].essential ? 1 : 0;
}

/// The finding whose doubt the budget shows: of those that matter most, the least probable.
const Finding* deciding_finding(const Descriptor& descriptor, const std::vector<Finding>& findings) {
  const Finding* deciding = nullptr;
  const auto matters_more = [&](const Finding& finding) {
    if (deciding == nullptr) return true;
    const int weight = weight_of(descriptor, finding);
    const int so_far = weight_of(descriptor, *deciding);
    return weight > so_far || (weight == so_far && finding.probability < deciding->probability);
  };
  for (const Finding& finding : findings)
    if (is_continuous(finding) && matters_more(finding)) deciding = &finding;
  return deciding;
}

/// Beside readings that contradict each other no part passes, and where nothing else was read there is nothing that a
/// rule could advise on.
void mind_what_is_set_aside(const Evidence& evidence, Verdict& verdict) {
  const auto readings = evidence.readings();
  if (std::none_of(readings.begin(), readings.end(), is_set_aside)) return;
  if (verdict.outcome == Outcome::within_limits) verdict.outcome = Outcome::undecided;
  const bool nothing_said = std::all_of(verdict.findings.begin(), verdict.findings.end(),
                                        [](const Finding& finding) { return finding.outcome == Outcome::silent; });
  if (nothing_said) verdict.advice.clear();
}

}  // namespace

Verdict conclude(const Descriptor& descriptor, const Evidence& evidence, const JudgeSettings& settings,
                 Findings findings, const ConclusionOptions& options) {
  Verdict verdict;
  verdict.findings = std::move(findings.findings());
  verdict.advice = std::move(findings.advice());
  const std::optional<Joint> joint =
      joint_over_essential(descriptor, evidence, verdict.findings, options.of_lone_essential);
  if (joint) {
    verdict.probability_within = joint->conformance.within;
    verdict.drawing = joint->drawing;
  }
  verdict.outcome = outcome_of(descriptor, settings, verdict.findings, joint);
  mind_what_is_set_aside(evidence, verdict);
  if (!options.wants_budget) return verdict;
  if (const Finding* deciding = deciding_finding(descriptor, verdict.findings))
    verdict.budget = budget_of(*deciding->judged);
  return verdict;
}

Verdict judge(const Part& part, const Descriptor& descriptor, const Evidence& evidence, const JudgeSettings& settings) {
  Findings findings;
  part.judge(evidence, settings, findings);
  return conclude(descriptor, evidence, settings, std::move(findings));
}

}  // namespace ohmwright
