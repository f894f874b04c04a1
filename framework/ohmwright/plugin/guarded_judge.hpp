#pragma once

#include <optional>
#include <string>
#include <variant>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/plugin/finding_check.hpp>

namespace ohmwright {

/// A part that could not be judged because its plugin failed. Never a pass, never a verdict.
struct NotJudged {
  std::string text;  ///< "not judged: the plugin failed: …"
};

/// Lets the part's rules speak. Nothing when they did; else why not, and then `findings` is empty.
///
/// Beside what the plugin throws, findings that cannot be used count as its failure (`misuse_of_findings`): what its
/// descriptor does not have, what is not a number, an outcome that its own numbers contradict.
/// Allocates nothing when the plugin does not. `lone` as of `misuse_of_findings`.
std::optional<NotJudged> run_rules(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                   const JudgeSettings& settings, Findings& findings, LoneEssential* lone = nullptr);

/// Judges a part of a plugin: its rules, guarded, then the conclusion. What rules find goes to the memory of
/// `findings`, which is empty; the verdict takes it over. Without `wants_budget` the verdict has none.
std::variant<Verdict, NotJudged> judge_guarded(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                               const JudgeSettings& settings, Findings findings = {},
                                               bool wants_budget = true);

}  // namespace ohmwright
