#pragma once

#include <optional>
#include <string>
#include <variant>

#include <ohmwright/component/kind.hpp>

namespace ohmwright {

/// A part that could not be judged because its plugin failed. Never a pass, never a verdict.
struct NotJudged {
  std::string text;  ///< "not judged: the plugin failed: …"
};

/// Lets the part's rules speak. Nothing when they did; else why not, and then `findings` is empty.
///
/// Beside what the plugin throws, findings that cannot be used count as its failure (`misuse_of_findings`): what its
/// descriptor does not have, what is not a number, an outcome that its own numbers contradict.
/// Allocates nothing when the plugin does not.
std::optional<NotJudged> run_rules(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                   const JudgeSettings& settings, Findings& findings);

/// Judges a part of a plugin: its rules, guarded, then the conclusion. What rules find goes to the memory of
/// `findings`, which is empty; the verdict takes it over.
std::variant<Verdict, NotJudged> judge_guarded(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                               const JudgeSettings& settings, Findings findings = {});

}  // namespace ohmwright
