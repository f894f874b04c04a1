#pragma once

#include <span>

#include <ohmwright/cycles/verdicts/log_verdict.hpp>
#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright::cycles {

/// What every rule is given.
struct JudgedLog {
  const LogAnalysis& analysis;
  const LogRatings& ratings;
  double confidence = 0.95;
};

/// An estimate [SI unit of `dimension`] with its sources, and the limits that it should keep; infinite where a side has
/// none.
struct JudgedQuantity {
  Dimension dimension = Dimension::ratio;
  Estimate estimate;
  std::span<const ErrorSource> sources;
  double lower = 0.0;
  double upper = 0.0;
};

/// Fills a verdict in: measured value, limits, P(within limits), doubt by source, and the outcome of `decide`.
void judge_quantity(const JudgedLog& log, const JudgedQuantity& quantity, LogVerdict& verdict);

/// Whether rows of the load are so far apart that one heating can show where another does not: the shortest that was
/// seen fills few of them, and no coil tells.
bool may_miss_heatings(const LogAnalysis& analysis);

/// How long no defrost came at an end of the log, against the longest that may pass between two.
struct OpenWait {
  double waited_second = 0.0;   ///< by the count that the rating goes by
  double longest_second = 0.0;  ///< rated, else the rarest that is known
  bool is_rated = false;
  double unseen_share = 0.0;  ///< of the time, in which one may have come unseen
  double doubt_second = 0.0;  ///< of what was waited: two standard uncertainties
};
OpenWait open_wait_of(const JudgedLog& log, const OpenInterval& open);

/// P(none seen in so many of their longest intervals | they come at any phase): each one that was surely due came into
/// what is hidden [0…1], and the last one, which was due with the rest of an interval, too or not at all.
double probability_of_none_seen(double intervals, double hidden_share);

/// P(none seen for so long | they come at least every `longest_second`): 1 up to that, beyond it the chance that each
/// one that was due came unseen.
double probability_of_open_wait(const OpenWait& wait);

LogVerdict judge_runs_and_cools(const JudgedLog& log);
LogVerdict judge_defrosts_come(const JudgedLog& log);
LogVerdict judge_heater_warms_coil(const JudgedLog& log);
LogVerdict judge_heat_comes_from_heater(const JudgedLog& log);
LogVerdict judge_defrost_end(const JudgedLog& log);
LogVerdict judge_coil_heat(const JudgedLog& log);
LogVerdict judge_heater_power(const JudgedLog& log);
LogVerdict judge_interval(const JudgedLog& log);
LogVerdict judge_air_over_coil(const JudgedLog& log);
LogVerdict judge_frost_load(const JudgedLog& log);
LogVerdict judge_compressor_stops(const JudgedLog& log);
LogVerdict judge_compressor_starts(const JudgedLog& log);

}  // namespace ohmwright::cycles
