#pragma once

#include <cstdint>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/verdict/decision.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// A value with the limits it was held against, and what follows from that.
struct Measured {
  Estimate value;      ///< [SI unit of `dimension`]
  double lower = 0.0;  ///< [SI]; an infinite one is none
  double upper = 0.0;
  Dimension dimension = Dimension::ratio;
  Conformance p;
  Outcome outcome = Outcome::undecided;

  bool is_low() const { return value.value() < lower; }
  bool is_high() const { return value.value() > upper; }
};

/// Holds a value against its limits: its conformance, and the decision at the confidence asked (`decide`).
OHMWRIGHT_CORE_API Measured measure(const Estimate& value, double lower, double upper, Dimension dimension,
                                    const Evidence& evidence, const JudgeSettings& settings);

/// Adds what a rule found of it, with {measured}, {lower} and {upper} in its sentence. Not `settled`, the text says why
/// the figures are no ground for a verdict: the finding is undecided and takes no part in a joint probability.
OHMWRIGHT_CORE_API Finding& add_measured(Findings& findings, std::uint16_t rule, TextIndex text,
                                         const Measured& measured, bool settled = true);

}  // namespace ohmwright
