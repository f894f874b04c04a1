#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

namespace {

/// Colder than this, something cools it, whatever the load says; warmer, nothing does (common practice, no source).
constexpr double cooled_kelvin = melting_point_kelvin + 5.0;

}  // namespace

LogVerdict judge_runs_and_cools(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  LogVerdict verdict{"runs-and-cools", "not-shown"};
  if (!analysis.run_share && !analysis.standstill) return verdict;
  if (!analysis.standstill) {
    verdict.outcome = Outcome::within_limits;
    verdict.text = "runs";
    return verdict;
  }
  // A log cannot tell a dead appliance from a pulled plug or a logger that was taken off: it asks, and condemns
  // nothing.
  const Standstill& stood = *analysis.standstill;
  verdict =
      question("runs-and-cools", "stands", {{"rest_second", stood.second()}, {"from_second", stood.start_second}});
  if (!stood.kelvin) return verdict;
  verdict.arguments.push_back({"celsius", *stood.kelvin - melting_point_kelvin});
  verdict.text = *stood.kelvin > cooled_kelvin ? "stands-warm" : "cools-unseen";
  return verdict;
}

}  // namespace ohmwright::cycles
