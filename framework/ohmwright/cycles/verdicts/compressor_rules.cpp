#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

namespace {

/// So many loads of less than a minute are no accident (common practice, no source).
constexpr std::uint64_t many_pulses = 10;

}  // namespace

LogVerdict judge_compressor_stops(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  LogVerdict verdict{"compressor-stops", "not-shown"};
  if (!analysis.run_share) return verdict;
  verdict.arguments = {{"run_share", *analysis.run_share}};
  if (analysis.never_stops && analysis.load_is_modulated) {
    verdict.outcome = Outcome::undecided;  // an inverter slows down where another compressor stops
    verdict.text = "slows-down";
    return verdict;
  }
  verdict.outcome = analysis.never_stops ? Outcome::out_of_limits : Outcome::within_limits;
  verdict.text = analysis.never_stops ? "never-stops" : "stops";
  if (analysis.never_stops) verdict.symptoms = {"compressor-never-stops"};
  return verdict;
}

LogVerdict judge_compressor_starts(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  LogVerdict verdict{"compressor-starts", "not-shown"};
  if (!analysis.has_load || !analysis.run_share) return verdict;
  verdict.arguments = {{"pulses", static_cast<double>(analysis.short_pulses)},
                       {"runs", static_cast<double>(analysis.run_count)}};
  if (analysis.short_pulses < many_pulses) {
    verdict.outcome = Outcome::within_limits;
    verdict.text = "runs-last";
    return verdict;
  }
  // What cannot start rests until its protector has cooled. Pauses of less than a minute are a time that is not right,
  // or another load.
  const bool are_attempts =
      analysis.short_pulses > analysis.run_count && 2 * analysis.short_pauses <= analysis.short_pulses;
  verdict.outcome = are_attempts ? Outcome::out_of_limits : Outcome::undecided;
  verdict.text = "short-loads";
  return verdict;
}

}  // namespace ohmwright::cycles
