#pragma once

#include <vector>

#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

/// Of the whole defrosts to which a rule applies, how many are odd.
struct OddOnes {
  double all = 0.0;
  double odd = 0.0;

  std::vector<LogArgument> arguments() const { return {{"count", odd}, {"all", all}}; }
};

/// P(at least `odd` odd ones of `all`) of a good appliance, of whose defrosts one in twenty is odd by a damp day, a
/// door or a second load (binomial; the share is common practice, no source).
double probability_of_as_many(const OddOnes& count);

/// Fills a verdict in from a count: none odd is within limits; more than chance explains condemn, fewer leave it open.
void judge_count(const JudgedLog& log, const OddOnes& count, LogVerdict& verdict);

}  // namespace ohmwright::cycles
