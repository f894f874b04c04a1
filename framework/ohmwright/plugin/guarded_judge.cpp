#include <utility>

#include <ohmwright/component/judgement.hpp>
#include <ohmwright/plugin/finding_check.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/guarded_judge.hpp>

namespace ohmwright {

namespace {

NotJudged failed(const std::string& why) { return {"not judged: the plugin failed: " + why}; }

}  // namespace

std::optional<NotJudged> run_rules(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                   const JudgeSettings& settings, Findings& findings, LoneEssential* lone) {
  std::optional<std::string> misuse;
  std::optional<std::string> why = guarded([&] {
    part.judge(evidence, settings, findings);
    misuse = misuse_of_findings(findings, descriptor, evidence, settings, lone);
  });
  if (!why) why = std::move(misuse);
  if (!why) return std::nullopt;
  findings.clear();  // nothing half-said is left to be taken for a verdict
  return failed(*why);
}

std::variant<Verdict, NotJudged> judge_guarded(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                               const JudgeSettings& settings, Findings findings, bool wants_budget) {
  LoneEssential lone;
  if (std::optional<NotJudged> failure = run_rules(part, descriptor, evidence, settings, findings, &lone))
    return *std::move(failure);
  // What a plugin found can still be too much to conclude from: that costs its own result and nothing else.
  std::optional<Verdict> verdict;
  const std::optional<std::string> why = guarded([&] {
    verdict = conclude(descriptor, evidence, settings, std::move(findings), {wants_budget, lone.conformance});
  });
  if (why) return failed(*why);
  return *std::move(verdict);
}

}  // namespace ohmwright
