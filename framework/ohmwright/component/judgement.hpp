#pragma once

#include <optional>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

/// What a conclusion is made with beside the findings.
struct ConclusionOptions {
  bool wants_budget = true;  ///< else `Verdict::budget` stays empty: nobody prints it
  /// The conformance of the only essential estimate there is, where it was computed already (`misuse_of_findings`).
  std::optional<Conformance> of_lone_essential = {};
};

/// Concludes from what the rules found (docs/arithmetic.md, "From findings to a verdict"):
/// out of limits if any rule condemns or the essential measurands do together (`decide`); within limits if every
/// essential rule passed, no finding holds it back, no reading is set aside and their joint probability reaches c; else
/// undecided. Takes the findings over.
OHMWRIGHT_CORE_API Verdict conclude(const Descriptor& descriptor, const Evidence& evidence,
                                    const JudgeSettings& settings, Findings findings,
                                    const ConclusionOptions& options = {});

/// Judges a part: its rules, then the conclusion.
OHMWRIGHT_CORE_API Verdict judge(const Part& part, const Descriptor& descriptor, const Evidence& evidence,
                                 const JudgeSettings& settings);

}  // namespace ohmwright
