#pragma once

#include <span>
#include <string_view>
#include <vector>

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

/// A verdict that leaves it open and asks.
LogVerdict question(std::string_view rule, std::string_view text, std::vector<LogArgument> arguments = {});

LogVerdict judge_runs_and_cools(const JudgedLog& log);
LogVerdict judge_heat_stops(const JudgedLog& log);
LogVerdict judge_defrosts_come(const JudgedLog& log);
LogVerdict judge_heater_warms_coil(const JudgedLog& log);
LogVerdict judge_heat_comes_from_heater(const JudgedLog& log);
LogVerdict judge_defrost_end(const JudgedLog& log);
LogVerdict judge_coil_heat(const JudgedLog& log);
LogVerdict judge_heater_power(const JudgedLog& log);
LogVerdict judge_interval(const JudgedLog& log);
LogVerdict judge_air_over_coil(const JudgedLog& log);
LogVerdict judge_frost_load(const JudgedLog& log);
LogVerdict judge_lasting_change(const JudgedLog& log);
LogVerdict judge_compressor_stops(const JudgedLog& log);
LogVerdict judge_compressor_starts(const JudgedLog& log);

}  // namespace ohmwright::cycles
