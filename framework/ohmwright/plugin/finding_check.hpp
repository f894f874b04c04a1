#pragma once

#include <optional>
#include <string>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright {

/// The conformance of the essential estimate, where the findings hold one alone.
struct LoneEssential {
  std::optional<Conformance> conformance;
};

/// Why findings cannot be used, or nothing: they must be of the descriptor, and an outcome must follow from the numbers
/// that its rule gives for it. Allocates nothing where nothing is wrong.
///
/// - Rules, texts, advice and error sources are there; the rule declares the outcome; every argument has a name.
/// - No number is a not-a-number; estimates are finite, uncertainties not below zero, probabilities from 0 to 1, lower
///   limits not above upper ones.
/// - P(within limits): beside a judged estimate it is the estimate's own to within 1e-6, and a pass or a condemnation
/// is
///   what `decide` makes of that estimate at the confidence asked for. Without one, a pass has p ≥ c, a condemnation
///   p ≤ 1 − c, and an essential rule does not pass, since it would be missing from the joint probability.
/// - P(observed | within limits) never passes and condemns at 1 − c or less.
/// - A rule may always be more cautious than its numbers: undecided or silent.
/// - No more estimates of essential rules than one joint probability takes.
///
/// What it computes of a lone essential estimate goes to `lone`, so that the conclusion need not compute it again.
std::optional<std::string> misuse_of_findings(const Findings& findings, const Descriptor& descriptor,
                                              const Evidence& evidence, const JudgeSettings& settings,
                                              LoneEssential* lone = nullptr);

}  // namespace ohmwright
