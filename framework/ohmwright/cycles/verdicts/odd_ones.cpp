#include <boost/math/distributions/binomial.hpp>

#include <ohmwright/cycles/verdicts/odd_ones.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::cycles {

double probability_of_as_many(const OddOnes& count) {
  constexpr double share_of_odd_ones = 0.05;
  if (count.odd < 1.0) return 1.0;
  const boost::math::binomial of_good(count.all, share_of_odd_ones);
  return boost::math::cdf(boost::math::complement(of_good, count.odd - 1.0));
}

void judge_count(const JudgedLog& log, const OddOnes& count, LogVerdict& verdict) {
  verdict.arguments = count.arguments();
  if (count.odd == 0.0) {
    verdict.outcome = Outcome::within_limits;
    return;
  }
  verdict.meaning = ProbabilityMeaning::observed_if_within;
  verdict.probability = probability_of_as_many(count);
  verdict.outcome = decide_observed(verdict.probability, log.confidence);
}

}  // namespace ohmwright::cycles
